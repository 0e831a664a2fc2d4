#include "paper/drawing.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"
#include "show/paint.hpp"

namespace ballchange {
namespace {

constexpr double kLeastCell = 1.0;  // mm: a smaller mark is a speck
constexpr double kLargeCell = 4.0;  // marks are no larger than in this

// Marks in a cell of 1 by 1, as strokes.
constexpr std::array<std::string_view, 9> kMarks{
    "",          "M.25.75L.75.25",       "M.5.45v.1",        "M.25.25L.75.75",       "M.25.5h.5",
    "M.5.25v.5", "M.3.3L.7.7M.3.7L.7.3", "M.3.5h.4M.5.3v.4", "M.35.65L.5.35L.65.65",
};

// Neighbours on the repeat, and the colours of a usual yarn, each get their own; a long list begins again, with the
// marks doubled.
std::string mark(std::size_t index) {
  std::string d(kMarks.at(index % kMarks.size()));
  if (index >= kMarks.size()) d += "M.15.9h.7";
  return d;
}

}  // namespace

std::string xml_text(std::string_view text) {
  std::string out;
  for (const char c : printable(text, std::string::npos)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string mm(double number) {
  std::string text = fmt::format("{:.3f}", number);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string hex(Shade shade) { return fmt::format("#{:02x}{:02x}{:02x}", shade.red, shade.green, shade.blue); }

void Drawing::open(std::string_view attributes) { body_ += fmt::format("<g {}>\n", attributes); }

void Drawing::rect(double x, double y, double width, double height, std::string_view attributes) {
  body_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" {}/>\n", mm(x), mm(y), mm(width), mm(height),
                       attributes);
}

void Drawing::line(double x1, double y1, double x2, double y2, std::string_view attributes) {
  body_ +=
      fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" {}/>\n", mm(x1), mm(y1), mm(x2), mm(y2), attributes);
}

void Drawing::path(std::string_view d, std::string_view attributes) {
  body_ += fmt::format("<path d=\"{}\" {}/>\n", d, attributes);
}

void Drawing::text(double x, double y, std::string_view words, std::string_view attributes) {
  body_ += fmt::format("<text x=\"{}\" y=\"{}\" {}>{}</text>\n", mm(x), mm(y), attributes, xml_text(words));
}

std::string Drawing::svg(Sheet sheet, std::string_view more) const {
  std::string out = fmt::format(
      "<svg {0}version=\"1.1\" width=\"{1}mm\" height=\"{2}mm\" viewBox=\"0 0 {1} {2}\" role=\"img\" "
      "aria-labelledby=\"{3} {4}\" font-family=\"sans-serif\" font-size=\"3.2\" fill=\"currentColor\">\n",
      more, mm(sheet.width), mm(sheet.height), id("title"), id("description"));
  out += fmt::format("<title id=\"{}\">{}</title>\n<desc id=\"{}\">{}</desc>\n", id("title"), xml_text(title_),
                     id("description"), xml_text(description_));
  if (!definitions_.empty()) out += "<defs>\n" + definitions_ + "</defs>\n";
  return out + body_ + "</svg>\n";
}

std::string Drawing::inline_svg(Sheet sheet, double letters) const {
  constexpr double readable = 9 * 25.4 / 96;  // 9 px, in mm
  const double least = sheet.width * std::min(1.0, readable / letters);
  return svg(sheet, fmt::format("style=\"--least:{}mm\" ", mm(least)));
}

std::string Drawing::file(Sheet sheet) const {
  // On its own a picture lies on white paper whatever the viewer's background.
  Drawing whole = *this;
  whole.body_ =
      fmt::format("<rect width=\"{}\" height=\"{}\" fill=\"#fff\"/>\n", mm(sheet.width), mm(sheet.height)) + body_;
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" +
         whole.svg(sheet, "xmlns=\"http://www.w3.org/2000/svg\" color=\"#1a1a1a\" ");
}

std::string_view letters_on(Shade shade) { return wants_white_letters(shade) ? "#fff" : "#000"; }

std::string fill_name(std::size_t colour, std::string_view key) { return fmt::format("{}fill-{}", key, colour); }

void define_fills(Drawing& drawing, const std::vector<Ink>& inks, Sheet cell, std::string_view key) {
  const bool marked = std::min(cell.width, cell.height) >= kLeastCell;
  const double width = std::min(cell.width, kLargeCell), height = std::min(cell.height, kLargeCell);
  for (std::size_t i = 0; i < inks.size(); ++i) {
    std::string inside = fmt::format("<rect width=\"1\" height=\"1\" fill=\"{}\"/>", hex(inks[i].shade));
    if (marked && i % kMarks.size() != 0) {
      inside += fmt::format(
          "<path d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-opacity=\".45\" stroke-width=\".12\" "
          "stroke-linecap=\"round\"/>",
          mark(i), letters_on(inks[i].shade));
    }
    drawing.define(
        fmt::format("<pattern id=\"{}\" patternUnits=\"userSpaceOnUse\" width=\"1\" height=\"1\" "
                    "patternTransform=\"scale({} {})\">{}</pattern>\n",
                    drawing.id(fill_name(i, key)), mm(width), mm(height), inside));
  }
}

}  // namespace ballchange
