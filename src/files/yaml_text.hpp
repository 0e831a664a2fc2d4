#pragma once
#include <string>
#include <string_view>

namespace ballchange {

// A text as a YAML value on one line, plain where that is safe, otherwise in double quotes. It reads back byte for byte
// but for broken UTF-8, which becomes U+FFFD, and control characters other than tab and newline, which a file may not
// hold.
[[nodiscard]] std::string yaml_text(std::string_view text);

}  // namespace ballchange
