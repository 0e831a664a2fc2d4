#pragma once
#include <string_view>

#include "console/context.hpp"
#include "show/paint.hpp"

namespace ballchange {

enum class ColourWish { when_it_can, always, never };

// The only place where the environment decides how an answer looks: COLUMNS, NO_COLOR, TERM, COLORTERM and the locale's
// character set. What goes to a file or a pipe does not depend on the locale.
[[nodiscard]] Screen screen_of(const Context& context, ColourWish wish);

// A diagnostic, with nothing in it that a terminal would act on or can't show.
void complain(const Context& context, std::string_view text);
// Tells what stays done even if the answer never gets through, so that nobody does it twice.
void stands_now(const Context& context, std::string_view text);
// What is worth knowing but hinders nothing: told when the command has ended, after its error if it ends in one.
void remark(const Context& context, std::string_view text);

}  // namespace ballchange
