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

/// What is shown if nothing else can be: the answer itself is never lost for want of a sheet.
json::value empty_sheet() {
    return json::object{{"title", "Done"},
                        {"lead", "The answer could not be shown. Ask for it with --json."}};
}

/// A sheet without the actions that this caller may not take, or that are not there now, such as
/// those of a plugin that was retired.
json::value allowed(const MethodTable& table, const Caller& caller, sheet::Sheet sheet) {
    sheet::keep_actions(sheet, [&](const sheet::Action& action) {
        const auto row = table.find(action.method);
        return row != nullptr && caller.access >= row->description.access;
    });
    return to_json(sheet);
}

/// Makes the sheet of an answer, or the general form of it; whatever goes wrong with that is
/// logged.
void make_sheet(const MethodTable& table, const std::shared_ptr<spdlog::logger>& log,
                const Call& call, const Asked& asked,
                const std::shared_ptr<const json::value>& result,
                const std::function<void(json::value sheet)>& done) {
    const std::string& name = asked.row->description.name;
    const auto tried = [log, name](const std::function<json::value()>& work) noexcept {
        std::optional<json::value> made;
        try {
            made = work();
        } catch (const std::exception& error) {
            log->error("{}: no sheet: {}", name, error.what());
        }
        return made;
    };
    const auto general = [&table, caller = call.caller, row = asked.row, result, tried, done] {
        auto made = tried([&] {
            return allowed(table, caller, sheet::generic_sheet(row->description, *result));
        });
        done(made ? std::move(*made) : empty_sheet());
    };
    if (!asked.row->sheet) {
        general();
        return;
    }
    asked.row->sheet(call, asked.params, *result,
                     [&table, caller = call.caller, tried, general, done](Outcome outcome) {
                         auto made = tried([&] {
                             if (const auto* error = std::get_if<Error>(&outcome))
                                 throw Error(*error);
                             return allowed(table, caller,
                                            decode<sheet::Sheet>(std::get<json::value>(outcome)));
                         });
                         if (made)
                             done(std::move(*made));
                         else
                             general();
                     });
}

/// A plugin gets the answer itself: sheets are for people.
void require_person(const Call& call) {
    if (call.depth > 0)
        throw Error(ErrorKind::refused, "not_for_plugins", "Sheets are made for people.",
                    "Call the method itself.");
}

void show(const MethodTable& table, const std::shared_ptr<spdlog::logger>& log, const Call& call,
          const json::object& params, const Done& done) {
    require_person(call);
    const auto given = read_as<SheetShow::Params>(params);
    const json::value inner = given.params;
    const Asked asked = asked_of(table, given.method, inner);
    table.start(given.method, call, &inner, [&table, log, call, asked, done](Outcome outcome) {
        if (std::holds_alternative<Error>(outcome)) {
            done(std::move(outcome));
            return;
        }
        const auto result =
            std::make_shared<const json::value>(std::move(std::get<json::value>(outcome)));
        make_sheet(table, log, call, asked, result, [&table, result, done](json::value sheet) {
            done(json::object{
                {"result", *result}, {"sheet", std::move(sheet)}, {"now", to_json(table.now())}});
        });
    });
}

void make(const MethodTable& table, const std::shared_ptr<spdlog::logger>& log, const Call& call,
          const json::object& params, const Done& done) {
    require_person(call);
    const auto given = read_as<SheetMake::Params>(params);
    const Asked asked = asked_of(table, given.method, given.params);
    const auto result = std::make_shared<const json::value>(given.result);
    make_sheet(table, log, call, asked, result, [&table, done](json::value sheet) {
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
