#include "tasks/why.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "catalogue/text.hpp"
#include "sheets/json.hpp"
#include "sheets/said.hpp"
#include "sheets/why_page.hpp"
#include "tasks/plan_room.hpp"

namespace benchgraft::tasks {
namespace {

Result<Answer> answer_from(const fit::Judgement& judgement, const std::string& code) {
  auto page = sheets::why_page(judgement, code);
  if (!page) return page.error();
  auto json = sheets::why_json(judgement, code);
  if (!json) return json.error();
  return Answer{std::move(page).value(), std::move(json).value()};
}

Result<Answer> answer_from(const plan::Plan& plan, const std::string& code,
                           const std::string& currency) {
  auto page = sheets::why_page(plan, code, currency);
  if (!page) return page.error();
  auto json = sheets::why_json(plan, code);
  if (!json) return json.error();
  return Answer{std::move(page).value(), std::move(json).value()};
}

// Facts may have changed since: then the statement is gone, and that is the answer.
Result<Answer> derived_again(const RebuildAsked& asked, const store::Said& said) {
  auto about = sheets::said_from_json(said.text);
  if (!about) return about.error();
  auto rebuild = catalogue::read_rebuild(about.value().rebuild,
                                         fmt::format("rebuild \"{}\"", about.value().name));
  if (!rebuild) return rebuild.error();
  auto judged = judge_text(asked, rebuild.value());
  if (!judged) return judged.error();
  auto answer = answer_from(judged.value().judgement, said.code);
  if (answer) return answer;
  return Error{ErrorKind::not_found,
               fmt::format("{} was said on {} about \"{}\". From what is on record now it is not "
                           "said any more.",
                           said.code, said.at.substr(0, 10), rebuild.value().name)};
}

Result<std::optional<store::Said>> said_before(const ShopAt& at, const std::string& code) {
  auto store = open_shop(at, store::Mode::read);
  if (!store) return store.error();
  return store.value().said(code);
}

Result<Answer> from_the_plan(const RebuildAsked& asked, const std::string& code) {
  auto room = load_room(asked.at, asked.knowledge);
  if (!room) return room.error();
  const auto& shop = room.value().shop;
  if (shop.set_by_code(code) == nullptr && shop.part_by_code(code) == nullptr)
    return Error{ErrorKind::not_found,
                 fmt::format("Nothing was said in this shop under the code {}, and no set and no "
                             "part has it.",
                             code)};
  auto plan = plan_of(room.value(), {15, true, asked.progress});
  if (!plan) return plan.error();
  return answer_from(plan.value(), code, shop.terms.currency);
}

}  // namespace

Result<Answer> why(const RebuildAsked& asked, const std::string& written) {
  // Codes are read off paper: small letters mean the same.
  const std::string code = in_capitals(written);
  if (!asked.named.empty()) {
    auto judged = judge_asked(asked);
    if (!judged) return judged.error();
    return answer_from(judged.value().judgement, code);
  }
  if (asked.at.path.empty())
    return Error{
        ErrorKind::not_found,
        fmt::format("Which rebuild was {0} said about? Write: benchgraft why {0} REBUILD.toml "
                    "--catalogue FOLDER, or name the shop with --shop.",
                    code)};
  auto said = said_before(asked.at, code);
  if (!said) return said.error();
  if (said.value()) return derived_again(asked, *said.value());
  return from_the_plan(asked, code);
}

}  // namespace benchgraft::tasks
