#pragma once
#include <fmt/core.h>

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "ledger/joined.hpp"
#include "ledger/project.hpp"
#include "ledger/state.hpp"
#include "ledger/strands.hpp"
#include "ledger/totals.hpp"

namespace ballchange {

// One pass over a log. Every apply() checks first and throws a Problem before it changes anything.
class Folding {
 public:
  // What the person has just told, not yet written: its troubles name options, all others the file's keys.
  enum class Last { in_the_file, just_told };
  Folding(const Project& project, std::vector<const Did*> entries, Last last = Last::in_the_file);
  Folding(const Folding&) = delete;  // strands_ looks into state_
  Folding& operator=(const Folding&) = delete;
  [[nodiscard]] State run();

 private:
  // Throws Problem(content).
  template <typename... Args>
  [[noreturn]] static void refuse(fmt::format_string<Args...> why, Args&&... args) {
    throw Problem(Fault::content, fmt::format(why, std::forward<Args>(args)...));
  }
  void open_gauge();
  void apply(const did::Ball& entry);
  void apply(const did::Begin& entry);
  void apply(const did::Row& entry);
  void apply(const did::Join& entry);
  void apply(const did::Weigh& entry);
  void apply(const did::Rip& entry);
  void apply(const did::Cancel& entry);
  void apply(const did::Gauge& entry);
  void apply(const did::Swatch& entry);
  void apply(const did::Note& entry);

  [[nodiscard]] std::size_t known(const std::string& ball) const;
  [[nodiscard]] std::string who(std::size_t ball) const;
  [[nodiscard]] std::string named(std::string_view key) const;  // trim_old, or --trim-old where it was just told
  [[nodiscard]] Length length(const std::optional<Amount>& amount, std::string_view what) const;
  [[nodiscard]] Length piece_length(const std::optional<Amount>& amount, std::string_view what);
  [[nodiscard]] std::optional<Length> length_of(const BallState& ball, const std::optional<Amount>& told) const;
  [[nodiscard]] std::optional<Length> weighed(const BallState& ball, Mass mass) const;
  [[nodiscard]] WorkPlace place(int row, std::optional<int> stitch) const;
  void check_amended(std::size_t ball, const did::Ball& entry) const;
  void check_whole_mass(std::size_t ball, const did::Ball& entry) const;
  void check_lighter(std::size_t ball, const did::Weigh& entry) const;
  void amend(std::size_t ball, const did::Ball& entry);
  void measure_anew(std::size_t ball, const BallState& next);
  [[nodiscard]] std::size_t kept_offcut(int entry, std::optional<End> cut_from) const;
  [[nodiscard]] std::string cut_off_at(const OffcutState& offcut) const;
  void be_offcut(BallState& ball, const did::Ball& entry);
  void use_offcut(std::size_t offcut, OffcutUse use, Length length);
  [[nodiscard]] OffcutState offcut_of(End end, std::optional<std::size_t> ball, Length length, bool knot,
                                      const std::optional<std::string>& reading) const;
  void keep(OffcutState offcut);
  [[nodiscard]] JoinState join_of(const did::Join& entry) const;
  [[nodiscard]] std::optional<Length> allowance_of(const did::Join& entry, Method method) const;
  void check_ball(const did::Join& entry, std::size_t ball);
  void check_order(const JoinState& join);
  [[nodiscard]] bool reaches(const JoinState& join, std::size_t ball);
  [[nodiscard]] bool take_old_ball(JoinState& join, std::size_t old_ball, std::optional<Length> stands);
  [[nodiscard]] std::optional<std::size_t> next_dyed(std::size_t from);
  void begin_with(std::size_t ball, Length trim);
  void begin_with_old(const did::Join& entry, std::size_t joined);
  void stand(const WorkPlace& at);
  void take_seen(const std::string& text, const WorkPlace& stands);
  void take_count(const Seen& seen);
  [[nodiscard]] std::optional<WorkPlace> place_of(const JoinState& join) const;
  [[nodiscard]] std::optional<WorkPlace> landed_at(std::size_t k);
  [[nodiscard]] int stitches_off(std::size_t k, int stitch);
  [[nodiscard]] std::size_t landed_in(int row, std::optional<int> stitch);
  [[nodiscard]] std::size_t first_landed_from(const WorkPlace& from);
  [[nodiscard]] std::size_t join_near(const WorkPlace& near);
  [[nodiscard]] std::string colour(ColourId id) const;
  [[nodiscard]] std::optional<JoinedSection> section_of(const JoinState& join) const;
  void forget_seen_past(const WorkPlace& back);
  [[nodiscard]] WorkPlace change_seen(const Seen& seen) const;
  void tell_sightings();
  void tell_past_end();
  [[nodiscard]] std::optional<std::string> fault_of(const std::string& text, End end, std::string_view what) const;
  void check_readings(std::size_t ball, const did::Ball& entry);
  void check_readings(const did::Join& entry);
  void ends_changed(std::size_t ball);
  void read_again(std::size_t ball);
  void far_end_changed(std::size_t ball);
  void parted(const JoinState& join);
  void remark(std::string message) { state_.troubles.push_back({entry_, false, std::move(message)}); }
  void finish();

  const Project& project_;
  std::vector<const Did*> entries_;
  State state_;
  Strands strands_{state_.joins};
  std::unordered_map<std::string, std::size_t> index_;
  std::unordered_map<std::size_t, int> to_read_;  // by ball: the swatch since whose entry its end is to be read again
  std::map<std::pair<std::size_t, BallEnd>, int> unreadable_;  // the entry that told a ball's end so
  std::multimap<WorkPlace, Sighting> sightings_;               // by where they are, as told where several are there
  std::vector<std::vector<std::size_t>> weighings_of_;         // by ball, as recorded
  std::vector<bool> settled_;      // by entry: what was remarked on it is told by a later one
  std::size_t plain_first_ = 0;    // so many plain balls stand before all others, at least
  std::optional<WorkPlace> told_;  // where `row` or `rip` last said the work stands; a join may be ahead of it
  Aside aside_;
  int rips_ = 0;
  std::unordered_map<std::size_t, int> breaks_;  // by ball: swatches and knots
  int sizes_ = 0;                                // of hook or needle, taken up one after the other
  int entry_ = 0;
  int just_told_ = -1;  // the entry that is
};

}  // namespace ballchange
