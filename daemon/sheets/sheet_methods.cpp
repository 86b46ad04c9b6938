#include "daemon/sheets/sheet_methods.hpp"

#include "sdk/sheet/actions.hpp"
#include "sdk/sheet/generic.hpp"
#include "sdk/sheet/messages.hpp"

namespace barmkeep::sheets {
namespace {

using sheet::SheetMake;
using sheet::SheetShow;

/// A method of which a sheet is asked, and what it was asked.
struct Asked {
    std::shared_ptr<const MethodTable::Row> row;
    json::object params; ///< by name, without the request key
};

Asked asked_of(const MethodTable& table, const std::string& method, const json::value& params) {
    if (method == SheetShow::about.name || method == SheetMake::about.name)
        throw Error(ErrorKind::params, "no_sheet_of_sheets",
                    "A method that answers with sheets has no sheet of its own.",
                    "Name another method.", "/method");
    Asked asked{table.require(method), {}};
    asked.params = named_params(&params, asked.row->description);
    if (asked.row->description.effect == Effect::writes)
        asked.params.erase(request_key_field);
    return asked;
}

/// Makes the sheet of an answer, or the general form, and hands it on without the actions that the
/// caller may not take.
void make_sheet(const MethodTable& table, const std::shared_ptr<spdlog::logger>& log,
                const Call& call, const Asked& asked, const json::value& result,
                const std::function<void(json::value sheet)>& done) {
    const auto finish = [&table, caller = call.caller, done](sheet::Sheet sheet) {
        // An action of a plugin that was retired is not there either.
        sheet::keep_actions(sheet, [&](const sheet::Action& action) {
            const auto row = table.find(action.method);
            return row != nullptr && caller.access >= row->description.access;
        });
        done(to_json(sheet));
    };
    const auto general = [description = asked.row->description, result] {
        return sheet::generic_sheet(description, result);
    };
    if (!asked.row->sheet) {
        finish(general());
        return;
    }
    asked.row->sheet(call, asked.params, result, [=](Outcome outcome) {
        if (auto* sheet = std::get_if<json::value>(&outcome)) {
            finish(decode<sheet::Sheet>(*sheet));
            return;
        }
        log->error("{}: no sheet: {}", asked.row->description.name,
                   std::get<Error>(outcome).what());
        finish(general());
    });
}

void show(const MethodTable& table, const std::shared_ptr<spdlog::logger>& log, const Call& call,
          const json::object& params, const Done& done) {
    const auto given = read_as<SheetShow::Params>(params);
    const json::value inner = given.params;
    const Asked asked = asked_of(table, given.method, inner);
    table.start(given.method, call, &inner, [&table, log, call, asked, done](Outcome outcome) {
        if (std::holds_alternative<Error>(outcome)) {
            done(std::move(outcome));
            return;
        }
        answer_or_fail(done, [&] {
            const json::value result = std::move(std::get<json::value>(outcome));
            make_sheet(table, log, call, asked, result, [&table, result, done](json::value sheet) {
                done(json::object{{"result", result},
                                  {"sheet", std::move(sheet)},
                                  {"now", to_json(table.now())}});
            });
        });
    });
}

void make(const MethodTable& table, const std::shared_ptr<spdlog::logger>& log, const Call& call,
          const json::object& params, const Done& done) {
    const auto given = read_as<SheetMake::Params>(params);
    const Asked asked = asked_of(table, given.method, given.params);
    make_sheet(table, log, call, asked, given.result, [&table, done](json::value sheet) {
        done(json::object{{"sheet", std::move(sheet)}, {"now", to_json(table.now())}});
    });
}

} // namespace

void add_sheet_methods(MethodTable& table, std::shared_ptr<spdlog::logger> log) {
    table.add(describe<SheetShow>(), "core",
              [&table, log](const Call& call, const json::object& params, const Done& done) {
                  answer_or_fail(done, [&] { show(table, log, call, params, done); });
              });
    table.add(describe<SheetMake>(), "core",
              [&table, log](const Call& call, const json::object& params, const Done& done) {
                  answer_or_fail(done, [&] { make(table, log, call, params, done); });
              });
}

} // namespace barmkeep::sheets
