#pragma once
#include <string>
#include <string_view>
#include <utility>

#include "show/paint.hpp"
#include "show/text.hpp"

namespace ballchange {

// A screen of text as it grows.
class Page {
 public:
  Page(const Screen& screen, Told told) : screen_(screen), told_(told) {}
  void say(std::string_view text) { text_ += wrapped(text, screen_.text_columns()); }
  void say(std::string_view label, std::string_view text) { text_ += labelled(label, text, screen_.text_columns()); }
  // A line to copy: never wrapped.
  void typed(std::string_view text) { text_ += std::string(kLabelWidth, ' ') + std::string(text) + "\n"; }
  void add(std::string_view text) { text_ += text; }
  [[nodiscard]] const Screen& screen() const { return screen_; }
  [[nodiscard]] Told told() const { return told_; }
  [[nodiscard]] std::string take() { return std::move(text_); }

 private:
  const Screen& screen_;
  Told told_;
  std::string text_;
};

}  // namespace ballchange
