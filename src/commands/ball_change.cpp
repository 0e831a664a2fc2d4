#include "commands/ball_change.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "commands/ask.hpp"
#include "console/screen.hpp"
#include "project/ahead.hpp"
#include "project/no_end.hpp"
#include "project/offcuts.hpp"

namespace ballchange {
namespace {

void tell_unread(CheckProject& record, const OpenProject& open, const Options& options) {
  const auto& balls = record.not_ranked;
  const bool any = std::any_of(balls.begin(), balls.end(),
                               [](const BallNotRanked& ball) { return ball.why == BallNotRanked::Why::unread; });
  if (any) record.unread_mean = unread_mean(open, options);
}

}  // namespace

bool means_project(const Options& options, const Context& context) {
  if (!options.words().empty()) return true;
  return !options.has("yarn") && !options.has("whole") && !project_files(context).empty();
}

ChangeInProject change_in_project(const Options& given, const Context& context, const Common& common) {
  refuse_other_yarn(given);
  refuse_either_way(given);
  OpenProject open = open_project(given, context);
  refuse_unbegun(open.state, given);
  Options options = given;
  std::vector<SaidNo> said_no;
  if (auto asked = with_ends(open, given, context, common)) {
    options = std::move(asked->options);
    said_no = std::move(asked->said_no);
    // Others may have recorded meanwhile.
    open = open_project(open.path, context.muted());
  }
  EndTexts texts = end_texts(options, context);
  ProjectAdvice advised = advise_in(open.project, open.state, options, texts);
  leave_unasked(said_no, End::old_end, advised.old_strand.placing);
  leave_unasked(said_no, End::new_end, advised.new_strand.placing);
  BallsAhead ahead = balls_ahead(open, advised, options, context);
  advised.on_record.path = open.path;
  advised.on_record.ahead = std::move(ahead.balls);
  advised.on_record.ahead_left_out = ahead.left_out;
  tell_unread(advised.on_record, open, options);
  advised.on_record.bridge = bridge_in(open, advised);
  for (const std::string& note : advised.terms.notes) remark(context, note);
  return {std::move(open), std::move(options), std::move(texts), std::move(advised)};
}

YarnAdvice change_on_yarn(const Options& given, const Context& context, const Common& common,
                          std::string_view command) {
  const EndsAsked asked = with_yarn_and_ends(given, context, common);
  YarnAdvice advised = advise_without_project(asked.options, context, common, command);
  leave_unasked(asked.said_no, End::old_end, advised.old_strand.placing);
  leave_unasked(asked.said_no, End::new_end, advised.new_strand.placing);
  return advised;
}

}  // namespace ballchange
