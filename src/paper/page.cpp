#include "paper/page.hpp"

#include <fmt/core.h>

#include <cassert>

#include "base/text.hpp"
#include "paper/drawing.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kAtOnce = 8;  // columns: a length with its unit is not broken in two

// Contrast of all words on their grounds at least 7:1. On paper 174 mm of A4 and 180 mm of Letter are left.
constexpr std::string_view kStyle = R"(:root{color-scheme:light dark;--ground:#fdfcf9;--ink:#1f1c18;--soft:#514b42;
--line:#b5ac9c}
@media screen and (prefers-color-scheme:dark){:root{--ground:#1b1a18;--ink:#efeae1;--soft:#c3bbad;--line:#5f584c}}
*{box-sizing:border-box}
body{margin:0 auto;padding:1rem;max-width:46rem;background:var(--ground);color:var(--ink);
font:1rem/1.5 "Noto Sans","DejaVu Sans",Verdana,sans-serif;overflow-wrap:anywhere}
h1{font-size:1.6rem;line-height:1.2;margin:0 0 .5rem}
h2{font-size:1.2rem;line-height:1.3;margin:2rem 0 .5rem;padding-top:.5rem;border-top:2px solid var(--line)}
h3{font-size:1rem;margin:1.25rem 0 .25rem}
p{margin:.5rem 0}
.soft,figcaption{color:var(--soft);font-size:.875rem}
table{border-collapse:collapse;margin:.5rem 0;font-variant-numeric:tabular-nums}
caption{text-align:left;color:var(--soft);font-size:.875rem;padding-bottom:.25rem}
th,td{text-align:left;vertical-align:top;padding:.15rem .75rem .15rem 0;border-bottom:1px solid var(--line)}
thead th{font-size:.875rem}
tbody th{font-weight:600}
dl{margin:.5rem 0;display:grid;grid-template-columns:minmax(4.5rem,max-content) 1fr;gap:.25rem 1rem}
dt{font-weight:600}
dd{margin:0;grid-column:2}
code{font-family:"DejaVu Sans Mono",monospace;font-size:.875rem}
figure{margin:.75rem 0;padding:.5rem;background:#fff;color:#1a1a1a;border:1px solid var(--line);
overflow-x:auto}
figure svg{display:block;max-width:100%;min-width:var(--least);height:auto}
figcaption{color:#514b42;padding-top:.25rem}
thead th{overflow-wrap:normal}
.at-once{white-space:nowrap}
.side{display:flex;flex-wrap:wrap;align-items:flex-start;gap:0 2rem}
@media (max-width:30rem){figure{padding:.25rem}dl{display:block}dd{margin-bottom:.5rem}th,td{padding-right:.5rem}}
@page{margin:15mm 18mm}
@media print{
body{padding:0;max-width:none;font-size:9.5pt;line-height:1.35;background:none}
h1{font-size:15pt}h2{font-size:12pt;margin:4mm 0 1mm}h3{font-size:10pt;margin:3mm 0 1mm}
.soft,figcaption,caption,thead th,code{font-size:8.5pt}
h1,h2,h3,caption{break-after:avoid}
tr,dt,dd,figure{break-inside:avoid}
table,dl{margin:1mm 0}th,td{padding:.2mm 4mm .2mm 0}p{margin:1mm 0}
figure{padding:0;border:0;margin:2mm 0;overflow:visible}
figure svg{max-width:none}
.whole{break-inside:avoid}
.screen{display:none}
}
)";

}  // namespace

HtmlPage& HtmlPage::open(std::string_view tag, std::string_view attributes) {
  body_ += fmt::format("<{}{}{}>", tag, attributes.empty() ? "" : " ", attributes);
  open_.emplace_back(tag);
  return *this;
}

HtmlPage& HtmlPage::close() {
  assert(!open_.empty());
  body_ += "</" + open_.back() + ">\n";
  open_.pop_back();
  return *this;
}

HtmlPage& HtmlPage::text(std::string_view words) {
  body_ += xml_text(words);
  return *this;
}

HtmlPage& HtmlPage::element(std::string_view tag, std::string_view words, std::string_view attributes) {
  return open(tag, attributes).text(words).close();
}

HtmlPage& HtmlPage::heading(int level, std::string_view words) {
  assert(level >= 1 && level <= level_ + 1);
  level_ = level;
  return element(fmt::format("h{}", level), words);
}

HtmlPage& HtmlPage::table(const PageTable& table) {
  open("table");
  if (!table.caption.empty()) element("caption", table.caption);
  open("thead").open("tr");
  for (const std::string& head : table.heads) element("th", head, "scope=\"col\"");
  close().close().open("tbody");
  for (const std::vector<std::string>& row : table.rows) {
    open("tr");
    for (std::size_t i = 0; i < row.size(); ++i) {
      const bool at_once = display_width(row[i]) <= kAtOnce;
      i == 0 ? element("th", row[i], "scope=\"row\"") : element("td", row[i], at_once ? "class=\"at-once\"" : "");
    }
    close();
  }
  return close().close();
}

HtmlPage& HtmlPage::terms() { return open("dl"); }

HtmlPage& HtmlPage::term(std::string_view label, std::string_view words) {
  return element("dt", label).element("dd", words);
}

HtmlPage& HtmlPage::told(std::string_view lines) {
  if (lines.empty()) return *this;
  terms();
  while (!lines.empty()) {
    const std::size_t stop = lines.find('\n');
    const std::string_view line = lines.substr(0, stop);
    lines.remove_prefix(stop == std::string_view::npos ? lines.size() : stop + 1);
    const std::string_view label = trim(line.substr(0, kLabelWidth));
    const std::string_view words = line.size() > kLabelWidth ? trim(line.substr(kLabelWidth)) : std::string_view();
    if (!label.empty()) element("dt", label);
    if (words.starts_with("ballchange ")) {
      open("dd").element("code", words).close();
    } else if (!words.empty()) {
      element("dd", words);
    }
  }
  return close();
}

HtmlPage& HtmlPage::picture(std::string_view svg, std::string_view caption) {
  open("figure");
  body_ += svg;
  if (!caption.empty()) element("figcaption", caption);
  return close();
}

std::string HtmlPage::take() {
  assert(open_.empty());
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>{}</title>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<style>\n{}</style>\n</head>\n"
      "<body>\n<main>\n{}</main>\n</body>\n</html>\n",
      xml_text(title_), kStyle, body_);
}

}  // namespace ballchange
