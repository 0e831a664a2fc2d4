#pragma once
#include <string>

#include "base/length.hpp"
#include "project/record.hpp"
#include "show/text.hpp"

namespace ballchange {

// Puts a remark before the others where a join just recorded cuts off more than its ball held by the record, or leaves
// too little of what hung loose to join: then it may be a slip, and is told with the line that takes it back.
void remark_on_trims(Recorded& recorded, const std::string& path, Told told);

}  // namespace ballchange
