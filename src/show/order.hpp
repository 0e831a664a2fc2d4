#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "creep/stretch.hpp"
#include "join/method.hpp"
#include "plan/order.hpp"
#include "show/paint.hpp"
#include "show/place.hpp"
#include "show/text.hpp"

// The best order of the balls, as a screen for people and as JSON for tools.
namespace ballchange {

struct OrderedBall {
  std::string id;
  bool other_end = false;  // it runs against the work: its start and finish in the hand are those of the ball turned
  std::optional<creeping::Longer> longer = {};  // its repeat, where a reading says so
};

// So many of the balls, with what is left of the one in work, hold what the rows still need.
struct Fewer {
  std::size_t balls = 0;
  Length need;
};

// The best order and the two it is held against.
struct OrderShown {
  const Yarn& yarn;
  const plan::Hand& hand;
  const std::vector<OrderedBall>& balls;  // as in the hand
  const plan::Best& best;
  const plan::Order& as_listed;
  const plan::Order& nearest_next;
  Method method = Method::threaded;
  std::optional<std::string> on_hook = {};  // the ball the first of the order follows
  std::optional<Fewer> fewer = {};          // all are put in order, though so many, the largest, would do
  std::optional<Length> too_little = {};    // by so much all together, for the rows, where no other need was told
  std::optional<Length> yarn_per_stitch = {};
  std::map<std::string, std::string> lots = {};  // the dye lots known, by ball
  std::vector<std::string> left_out = {};        // balls not read well enough, where the others are enough
  bool foundation_untold = false;  // a first stitch is wanted, and nothing is known of the foundation before it
};

// The balls of which an end is not read, where another order might cut off less if it were: in or out of the best one.
[[nodiscard]] std::vector<std::string> may_matter_unread(const OrderShown& shown);
[[nodiscard]] std::string order_screen(const OrderShown& shown, const Screen& screen, Told told);
[[nodiscard]] std::string order_json(const OrderShown& shown);

// An end that can't be put in order yet.
struct OpenEnd {
  enum class Why { not_read, unsettled, no_fit, two_ways, other_way };
  std::string ball;
  std::string end;  // "outside", "inside"; empty where both are meant
  Why why = Why::unsettled;
  std::string ask;                     // what would settle it
  std::optional<Length> measure_more;  // with unsettled
};

struct OpenEndsShown {
  std::vector<OpenEnd> ends;  // one at least
  std::size_t balls = 0;      // all to be put in order
  bool in_stitches = false;
  std::optional<Length> need = {};        // yarn the work takes from them, where that is known
  std::optional<Length> too_little = {};  // by so much all of them together, even if nothing is cut off
  std::optional<Fewer> instead = {};      // of those without an open end, enough for the rows
  std::string command = {};  // that tells their order; nothing where --need is to be added to what was typed
};

// As --need takes it, no less than `need`: "222m".
[[nodiscard]] std::string need_word(Length need, Told told);
// "--need 222m"
[[nodiscard]] std::string need_option(Length need, Told told);

[[nodiscard]] std::string open_ends_screen(const OpenEndsShown& shown, const Screen& screen, Told told);
[[nodiscard]] std::string open_ends_json(const OpenEndsShown& shown);

}  // namespace ballchange
