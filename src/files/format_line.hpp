#pragma once
#include <string_view>

#include "files/yaml_tree.hpp"

namespace ballchange {

// Refuses a file whose `format` is not "ballchange KIND N" with 1 <= N <= newest. Throws Problem(content); a newer
// number has a message of its own.
void check_format(Node root, std::string_view kind, int newest);

}  // namespace ballchange
