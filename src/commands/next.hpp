#pragma once
#include "console/context.hpp"

namespace ballchange {

// What is said where no command is given: the next sensible step for what is in the folder. Throws Problem where its
// only project can't be read.
[[nodiscard]] Outcome tell_next(Context& context);

}  // namespace ballchange
