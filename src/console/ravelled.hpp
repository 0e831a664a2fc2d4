#pragma once
#include "base/measure.hpp"
#include "console/options.hpp"

// Yarn that was worked once is kinked, and reads short until it is damped and dried.
namespace ballchange {

// By --ravelled damped or kinked; where it isn't told, as the record has it.
[[nodiscard]] bool is_kinked(const Options& options, bool on_record);
// How far off lengths measured along it may be: 5 % of them besides the tape's error. Common practice, no source.
[[nodiscard]] Tape kinked(Tape tape);

}  // namespace ballchange
