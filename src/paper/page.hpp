#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// A page of HTML that stands on its own: no script, nothing fetched, light or dark as the reader has it, to be printed
// on A4 or Letter. Words are escaped here, by xml_text; tags, attributes and pictures are the program's own.
namespace ballchange {

struct PageTable {
  std::string caption;
  std::vector<std::string> heads;              // of the columns
  std::vector<std::vector<std::string>> rows;  // the first cell of each is its head
};

class HtmlPage {
 public:
  explicit HtmlPage(std::string title) : title_(std::move(title)) {}

  HtmlPage& open(std::string_view tag, std::string_view attributes = {});
  HtmlPage& close();  // the innermost; there must be one: asserted
  HtmlPage& text(std::string_view words);
  HtmlPage& element(std::string_view tag, std::string_view words, std::string_view attributes = {});
  // Headings must not skip a level: asserted.
  HtmlPage& heading(int level, std::string_view words);
  HtmlPage& paragraph(std::string_view words) { return element("p", words); }
  HtmlPage& table(const PageTable& table);
  // What a label tells, one below the other.
  HtmlPage& terms();  // open
  HtmlPage& term(std::string_view label, std::string_view words);
  // Lines of a screen, as labelled() makes them where nothing is wrapped (kUnwrapped), as such terms; commands to type
  // among them.
  HtmlPage& told(std::string_view lines);
  // An element of SVG on a light ground, whatever the page's is.
  HtmlPage& picture(std::string_view svg, std::string_view caption = {});

  [[nodiscard]] std::string take();  // all must be closed: asserted

  static constexpr std::size_t kUnwrapped = 1'000'000;

 private:
  std::string title_, body_;
  std::vector<std::string> open_;
  int level_ = 0;
};

}  // namespace ballchange
