#pragma once
#include <string>
#include <vector>

namespace ballchange {

// Leaves the first ten notes on keys of a file that are not known, and a line that counts the rest.
void shorten_notes(std::vector<std::string>& notes, const std::string& file);

}  // namespace ballchange
