"""That every C++ file includes what it says, itself or by way of our headers.

Where files are compiled several as one (tests/together.py), one may live on what another includes, and not compile alone.
Asked after are the standard library's names and fmt's where they are written with their namespace, and those of our
headers: types, functions called, constants and suffixes of numbers. It compiles nothing, and misses what has the name of
something else in the same files; `tests/run release` compiles each file alone. Prints every breach; exit code 1 when there
is one.
"""

import collections
import functools
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests"))
from together import declared  # noqa: E402

# Header: the names of the standard library it is included for. A name in several lines comes with any of them.
STANDARD = {
    "algorithm": "adjacent_find all_of any_of binary_search clamp copy copy_if count count_if equal equal_range fill fill_n "
                 "find find_first_of find_if find_if_not for_each generate includes is_sorted lexicographical_compare "
                 "lower_bound max max_element merge min min_element minmax minmax_element mismatch next_permutation none_of "
                 "nth_element partition partial_sort remove remove_copy_if remove_if replace replace_if reverse rotate "
                 "search set_difference set_intersection set_union shuffle sort stable_partition stable_sort swap_ranges "
                 "transform unique upper_bound",
    "array": "array get to_array",
    "atomic": "atomic",
    "bit": "bit_cast bit_width countr_zero popcount rotl",
    "charconv": "chars_format from_chars to_chars",
    "chrono": "chrono micro milli nano",
    "cmath": "abs atan atan2 cbrt ceil cos erf erfc exp expm1 fabs floor fmod hypot isfinite isinf isnan lgamma llround log "
             "log10 log1p log2 lround modf nearbyint pow remainder round signbit sin sqrt tan tgamma trunc",
    "compare": "partial_ordering strong_ordering weak_ordering",
    "concepts": "convertible_to floating_point integral invocable same_as",
    "csignal": "raise sig_atomic_t signal",
    "cstddef": "byte max_align_t nullptr_t ptrdiff_t size_t",
    "cstdint": "int16_t int32_t int64_t int8_t intptr_t uint16_t uint32_t uint64_t uint8_t uintptr_t",
    "cstdio": "FILE fclose feof fflush fgets fileno fopen fprintf fputs fread fwrite perror printf puts "
              "remove rename size_t",
    "cstdlib": "_Exit abort abs atexit atoi atoll div exit free getenv malloc quick_exit size_t strtol",
    "cstring": "memchr memcmp memcpy memset size_t strchr strcmp strerror strlen strsignal",
    "ctime": "clock clock_t gmtime localtime mktime size_t strftime time time_t tm",
    "deque": "deque",
    "exception": "current_exception exception exception_ptr rethrow_exception set_terminate terminate uncaught_exceptions",
    "filesystem": "filesystem",
    "fstream": "fstream ifstream ios ofstream streamsize",
    "functional": "cref equal_to function greater hash invoke less minus multiplies plus ref reference_wrapper",
    "future": "async future launch promise",
    "initializer_list": "initializer_list",
    "ios": "ios ios_base streamoff streampos streamsize",
    "iosfwd": "istream ostream streambuf",
    "iostream": "cerr cin clog cout flush ios",
    "istream": "ios istream streamsize ws",
    "iterator": "advance back_inserter begin data distance empty end inserter istreambuf_iterator make_move_iterator "
                "make_reverse_iterator next prev rbegin rend reverse_iterator size ssize",
    "limits": "numeric_limits",
    "map": "begin empty end erase_if less map multimap size",
    "memory": "addressof make_shared make_unique shared_ptr unique_ptr",
    "mutex": "call_once lock_guard mutex once_flag scoped_lock unique_lock",
    "new": "bad_alloc nothrow",
    "numbers": "numbers",
    "numeric": "accumulate adjacent_difference gcd inner_product iota lcm partial_sum reduce",
    "optional": "bad_optional_access make_optional nullopt nullopt_t optional",
    "ostream": "endl flush ios ostream streamsize",
    "random": "mt19937 mt19937_64 normal_distribution uniform_int_distribution uniform_real_distribution",
    "set": "begin empty end erase_if less multiset set size",
    "span": "as_bytes begin end size span",
    "sstream": "ios istringstream ostringstream stringstream",
    "stdexcept": "domain_error invalid_argument length_error logic_error out_of_range range_error runtime_error",
    "streambuf": "streambuf",
    "string": "basic_string begin char_traits data empty end erase erase_if getline size stod stoi stol stoll string to_string "
              "u32string",
    "string_view": "basic_string_view begin data empty end size string_view u32string_view",
    "system_error": "errc error_code error_condition generic_category make_error_code system_category system_error",
    "thread": "jthread this_thread thread",
    "tuple": "apply forward_as_tuple get ignore make_tuple tie tuple tuple_element_t tuple_size_v",
    "type_traits": "conditional_t decay_t enable_if_t false_type invoke_result_t is_base_of_v is_convertible_v is_enum_v "
                   "is_floating_point_v is_integral_v is_invocable_v is_same_v is_trivially_copyable_v remove_cvref_t "
                   "true_type underlying_type_t",
    "unordered_map": "begin end erase_if unordered_map",
    "unordered_set": "unordered_set",
    "utility": "as_const cmp_less exchange forward get in_range index_sequence integer_sequence make_index_sequence make_pair "
               "move pair swap",
    "variant": "get get_if holds_alternative in_place_type monostate variant variant_alternative_t variant_size_v visit",
    "vector": "begin data empty end erase erase_if size vector",
}
MACROS = {"cassert": "assert", "cerrno": "errno", "climits": "INT_MAX INT_MIN LONG_MAX LONG_MIN"}
FMT = {"fmt/core.h": "format format_string print runtime format_to format_args make_format_args vformat formatted_size",
       "fmt/format.h": "format format_string print runtime formatted_size formatter join memory_buffer to_string",
       "fmt/ranges.h": "format join"}


def by_name(headers):
    found = collections.defaultdict(set)
    for header, names in headers.items():
        for name in names.split():
            found[name].add(header)
    return found


def code(text):
    """Without comments, texts and lines for the preprocessor."""
    text = re.sub(r'R"\w*\((?:.|\n)*?\)\w*"', '""', text)
    return re.sub(r'^#.*|//.*|"(?:\\.|[^"\\\n])*"', "", text, flags=re.M)


class Tree:
    """Our files below some folders; a header is found in any of them, or beside who includes it."""

    def __init__(self, *folders):
        self.folders = folders
        self.files = sorted(path for folder in folders for path in folder.rglob("*.[ch]pp"))
        self.declared_in = collections.defaultdict(set)
        self.suffixes = collections.defaultdict(set)
        for path in self.files:
            if path.suffix == ".hpp":
                text = path.read_text(encoding="utf-8")
                for name in declared(text):
                    self.declared_in[name].add(path)
                for suffix in re.findall(r'operator""\s*(_\w+)', text):
                    self.suffixes[suffix].add(path)

    @functools.cache
    def read_by(self, path):
        """The file and all headers of ours that come with it."""
        found = {path}
        for name in re.findall(r'^#include "(.+)"', path.read_text(encoding="utf-8"), re.M):
            for folder in (path.parent, *self.folders):
                if (folder / name).is_file():
                    found |= self.read_by(folder / name)
                    break
        return found

    def lacking(self, path):
        """Lines on what the file says and does not include."""
        text = code(path.read_text(encoding="utf-8"))
        read = self.read_by(path)
        angled = set().union(*(re.findall(r"^#include <(.+)>", one.read_text(encoding="utf-8"), re.M) for one in read))
        for header, names in MACROS.items():
            said = re.search(rf"\b({'|'.join(names.split())})\b", text)
            if said and header not in angled:
                yield f"{said.group(1)}, but not <{header}>"
        for space, headers in (("std", by_name(STANDARD)), ("fmt", by_name(FMT))):
            for name in sorted(set(re.findall(rf"\b{space}::(\w+)", text))):
                if name not in headers:
                    yield f"{space}::{name}: of which header? Tell tests/gates/includes.py"
                elif not headers[name] & angled:
                    yield f"{space}::{name}, but not {' or '.join(f'<{header}>' for header in sorted(headers[name]))}"
        text = re.sub(r"\b(?:std|fmt|YAML|boost|spdlog|doctest)::[\w:]+", "", text)
        known = "\n".join(code(one.read_text(encoding="utf-8")) for one in read)
        # What a file calls its own types, functions, members and locals is declared somewhere in what it reads.
        types = re.findall(r"(?<![\w.>:])(?:\w+::)*([A-Z]\w*[a-z]\w*)\b", text)
        own = re.findall(r"\b(?:struct|enum class|class|enum|using|typename|typename\.\.\.) (\w+)", known)
        others = re.findall(r"(?<![\w.>:])(?:[a-z]\w*::)?(\w+)(?=\(|<\w+>\()|\b(k[A-Z]\w+)\b", text)
        known = re.sub(r"\b(?:return|else|throw|case|not|and|or)\b", ";", known)
        named = set(re.findall(r"(?:(?<=[\w\]] )|(?<=[\w>\]][&*>] ))(\w+)\b(?! ==)", known)
                    + re.findall(r"[\[,] ?(\w+)(?=[\],])", known))
        called = {name for both in others for name in both} - named
        for name in sorted((set(types) - set(own) | called) & set(self.declared_in)):
            if not self.declared_in[name] & read:
                yield f"{name}, but not {' or '.join(sorted(at.name for at in self.declared_in[name]))}"
        for suffix in sorted(set(re.findall(r"\d(_[a-z]+)\b", text)) & set(self.suffixes)):
            if not self.suffixes[suffix] & read:
                yield f"{suffix}, but not {' or '.join(sorted(at.name for at in self.suffixes[suffix]))}"


def main():
    tree = Tree(ROOT / "src", ROOT / "tests")
    found = [f"{path.relative_to(ROOT)}: says {what}" for path in tree.files for what in tree.lacking(path)]
    print("\n".join(found) or f"{len(tree.files)} files include what they say")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
