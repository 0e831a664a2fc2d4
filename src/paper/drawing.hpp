#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/shade.hpp"
#include "picture/inks.hpp"

// Pictures as SVG 1.1, in millimetres of paper. Whatever came from outside is escaped here and nowhere else.
namespace ballchange {

// Text between tags or in a quoted attribute of XML and HTML; what XML can't hold, or would reorder what stands around
// it, is shown as printable() shows it.
[[nodiscard]] std::string xml_text(std::string_view text);
// A number of millimetres as SVG takes it: at most 3 decimals, no exponent.
[[nodiscard]] std::string mm(double number);
[[nodiscard]] std::string hex(Shade shade);  // "#a5492a"

struct Sheet {
  double width = 0, height = 0;  // mm
};

// One picture as it grows. Attributes are the program's own text, never anybody's.
class Drawing {
 public:
  // `key` begins the names that this picture refers to itself by, so that several can stand on one page.
  Drawing(std::string key, std::string title, std::string description)
      : key_(std::move(key)), title_(std::move(title)), description_(std::move(description)) {}

  [[nodiscard]] std::string id(std::string_view name) const { return key_ + "-" + std::string(name); }
  [[nodiscard]] std::string url(std::string_view name) const { return "url(#" + id(name) + ")"; }

  void define(std::string_view definition) { definitions_ += definition; }
  void open(std::string_view attributes);  // a group
  void close() { body_ += "</g>\n"; }
  void rect(double x, double y, double width, double height, std::string_view attributes);
  void line(double x1, double y1, double x2, double y2, std::string_view attributes);
  void path(std::string_view d, std::string_view attributes);
  void text(double x, double y, std::string_view words, std::string_view attributes);
  void add(std::string_view svg) { body_ += svg; }

  // An element for a page, its size in mm; with a name space it is a file of its own.
  // On a narrow screen it shrinks as long as its smallest letters, so large (mm), can be read.
  [[nodiscard]] std::string inline_svg(Sheet sheet, double letters = 3.2) const;
  [[nodiscard]] std::string file(Sheet sheet) const;

 private:
  [[nodiscard]] std::string svg(Sheet sheet, std::string_view more) const;
  std::string key_, title_, description_, definitions_, body_;
};

// Defines fills "fill-0", "fill-1", ... in the picture (begun with a key where it holds several sets), each with a mark
// of its own, in cells of that size (mm); in cells too small for a mark they are plain.
void define_fills(Drawing& drawing, const std::vector<Ink>& inks, Sheet cell, std::string_view key = {});
[[nodiscard]] std::string fill_name(std::size_t colour, std::string_view key = {});
// The colour of letters and marks on a shade: black or white.
[[nodiscard]] std::string_view letters_on(Shade shade);

}  // namespace ballchange
