# Completion of ballchange in bash. The program itself tells what may stand next: ballchange words -- TYPED...
_ballchange() {
    local line=${COMP_LINE:0:COMP_POINT} typed=() word= begun= quote= raw= letter text

    # The words so far as the shell would take them, with nothing expanded or run; `raw` is the last one as it stands.
    while [[ -n $line ]]; do
        letter=${line:0:1} line=${line:1} raw+=$letter
        case $quote$letter in
            [[:blank:]])
                [[ $begun ]] && typed+=("$word")
                word= begun= raw=
                continue
                ;;
            \\) word+=${line:0:1} raw+=${line:0:1} line=${line:1} ;;
            \"\\)
                [[ ${line:0:1} == [\"\\\$\`] ]] && letter=${line:0:1} raw+=${line:0:1} line=${line:1}
                word+=$letter
                ;;
            \' | \") quote=$letter ;;
            \'\' | \"\") quote= ;;
            *) word+=$letter ;;
        esac
        begun=1
    done

    # Of the last word, bash replaces only what follows a character like = or :, an @ (of several the last) together
    # with what follows it.
    local part=${COMP_WORDS[COMP_CWORD]} kept=
    while [[ $part == [=:]* || $part == @@* ]]; do part=${part:1}; done
    [[ -z $quote && $raw == *"$part" ]] && kept=${raw%"$part"}
    [[ $part != @* && $kept == *@ && $kept != *\\@ ]] && kept=${kept%@}

    local said=()
    mapfile -t said < <(command ballchange words -- "${typed[@]:1}" "$word" 2>/dev/null)
    COMPREPLY=()
    for text in "${said[@]:1}"; do
        text=${text%%$'\t'*}
        [[ $text == "$word"* ]] || continue
        if [[ $quote ]]; then
            [[ $text == *[\"\'\\\$\`!]* ]] || COMPREPLY+=("$text")
        elif [[ $text == "$kept"* ]]; then
            COMPREPLY+=("$(printf %q "${text#"$kept"}")")
        fi
    done
    if [[ ${#COMPREPLY[@]} -eq 0 && ${said[0]} == files ]]; then compopt -o default; fi
} && complete -F _ballchange ballchange
