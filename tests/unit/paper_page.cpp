#include "paper/page.hpp"

#include <doctest/doctest.h>

#include <string>
#include <utility>

#include "show/text.hpp"

namespace ballchange {
namespace {

// Between <main> and </main>.
std::string body(HtmlPage page) {
  const std::string all = page.take();
  const std::string open = "<main>\n", close = "</main>";
  const std::size_t from = all.find(open) + open.size();
  return all.substr(from, all.find(close) - from);
}

}  // namespace

TEST_CASE("whatever words say, they stay words") {
  HtmlPage page("A <script> & \"a\" title");
  page.heading(1, "</h1><script>alert('x')</script>").paragraph("a \u202E b");
  const std::string all = page.take();
  CHECK(all.find("<title>A &lt;script&gt; &amp; &quot;a&quot; title</title>") != std::string::npos);
  CHECK(all.find("<h1>&lt;/h1&gt;&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;</h1>\n<p>a \\u{202E} b</p>") !=
        std::string::npos);
  CHECK(all.find("<script") == std::string::npos);
  CHECK(all.starts_with("<!DOCTYPE html>\n<html lang=\"en\">\n"));
}

TEST_CASE("a page leaves nothing out of a long line") {
  HtmlPage page("t");
  const std::string line = std::string(5000, 'x') + " & the end";
  page.paragraph(line);
  CHECK(body(std::move(page)) == "<p>" + std::string(5000, 'x') + " &amp; the end</p>\n");
}

TEST_CASE("a table has its caption, its heads of columns and of rows") {
  HtmlPage page("t");
  page.table({"By cause", {"For", "Yarn"}, {{"in the joins", "8 cm"}}});
  CHECK(
      body(std::move(page)) ==
      "<table><caption>By cause</caption>\n<thead><tr><th scope=\"col\">For</th>\n<th scope=\"col\">Yarn</th>\n</tr>\n"
      "</thead>\n<tbody><tr><th scope=\"row\">in the joins</th>\n<td class=\"at-once\">8 "
      "cm</td>\n</tr>\n</tbody>\n</table>\n");
}

TEST_CASE("lines of a screen become terms, and what is to be typed code") {
  HtmlPage page("t");
  page.told(labelled("Read", "the end of ball B:", HtmlPage::kUnwrapped) + std::string(kLabelWidth, ' ') +
            "ballchange ball --ball B --outside READING\n" + labelled("", "and more.", HtmlPage::kUnwrapped));
  CHECK(body(std::move(page)) ==
        "<dl><dt>Read</dt>\n<dd>the end of ball B:</dd>\n<dd><code>ballchange ball --ball B --outside READING</code>\n"
        "</dd>\n<dd>and more.</dd>\n</dl>\n");
}

TEST_CASE("no lines make no list") {
  HtmlPage page("t");
  page.told("");
  CHECK(body(std::move(page)).empty());
}

}  // namespace ballchange
