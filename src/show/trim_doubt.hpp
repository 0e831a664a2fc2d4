#pragma once
#include "show/check.hpp"

// How well it is known what comes off: sections that were not measured differ from the repeat's.
namespace ballchange {

// One standard deviation of what comes off that end. Nothing where all of it was measured.
[[nodiscard]] Length trim_doubt(const CheckShown& shown, const Join& join, End end);
// Of what comes off both.
[[nodiscard]] Length discard_doubt(const CheckShown& shown, const Join& join);
// Of so much yarn, by the repeat alone; nothing where no more than the two readings hold.
[[nodiscard]] Length unseen_doubt(const CheckShown& shown, Length length);

}  // namespace ballchange
