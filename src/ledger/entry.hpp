#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "ledger/did.hpp"
#include "ledger/moment.hpp"

// An entry of a project's log.
namespace ballchange {

using Did = std::variant<did::Ball, did::Begin, did::Row, did::Join, did::Weigh, did::Rip, did::Cancel, did::Gauge,
                         did::Swatch, did::Note>;

struct LogEntry {
  int n = 1;
  Moment at;
  Did what;
  friend bool operator==(const LogEntry&, const LogEntry&) = default;
};

[[nodiscard]] std::string_view kind_name(const Did& what);
[[nodiscard]] const std::vector<std::string>& kind_names();
// An entry of that kind with nothing told; nothing for a name that is no kind.
[[nodiscard]] std::optional<Did> blank_entry(std::string_view kind);

// What a person types for a key: "--trim-old" for "trim_old".
[[nodiscard]] std::string option_for(std::string_view key);

[[nodiscard]] std::string_view end_name(BallEnd end);
[[nodiscard]] std::string_view winding_name(Winding wound);
[[nodiscard]] std::string_view cut_from_name(End end);  // "old", "new"

// A number to the four decimals a project file holds: finer than any tape. Never -0.
[[nodiscard]] double to_four_decimals(double number);

// A length in one of a project's units, to four decimals, as the log writes it. A stitch needs the ruler's.
[[nodiscard]] Amount amount_in(Length length, Unit unit, const Ruler& ruler);

}  // namespace ballchange
