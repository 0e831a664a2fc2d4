# Completion of ballchange in fish. The program itself tells what may stand next: ballchange words -- TYPED...
function __ballchange_words
    set -l typed (commandline -opc)
    set -l word (commandline -ct)
    set -e typed[1]
    set -l said (command ballchange words -- $typed "$word" 2>/dev/null)
    set -l kind $said[1]
    set -e said[1]
    if test (count $said) -gt 0
        printf '%s\n' $said
    end
    if test "$kind" = files; and not string match -q -- "$word*" $said
        __fish_complete_path "$word"
    end
end

complete -c ballchange -f -a '(__ballchange_words)'
