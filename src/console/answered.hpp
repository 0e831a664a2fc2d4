#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "match/place.hpp"
#include "reading/reading.hpp"

namespace ballchange {

// The text of a reading with the answer to its question worked into it, all else as it was written: "rust 30, sand" and
// "moss" to what follows make "rust 30, sand, moss". An answer that is a reading itself takes its place. Nothing where
// the answer tells nothing new. Throws Problem(content) for an answer of another kind.
[[nodiscard]] std::optional<std::string> answered(std::string_view text, const Reading& reading,
                                                  const Question& question, std::string_view answer,
                                                  const std::vector<Colour>& colours);

}  // namespace ballchange
