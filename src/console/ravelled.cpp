#include "console/ravelled.hpp"

#include "console/common.hpp"

namespace ballchange {
namespace {

constexpr double kShort = 0.05;

}  // namespace

bool is_kinked(const Options& options, bool on_record) {
  return choice(options, "ravelled", on_record, {{"damped", false}, {"kinked", true}});
}

Tape kinked(Tape tape) {
  tape.share += kShort;
  return tape;
}

}  // namespace ballchange
