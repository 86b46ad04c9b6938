// The methods that answer with a sheet: a method's answer as a person reads it.
//
//     sheet.show {"method": "stock.list", "params": {"good": "lids"}}
//     -> {"result": {...}, "sheet": {...}, "now": "2026-03-14T08:00:00Z"}
//
// sheet.show calls the method with the caller's own rights, request key, progress and cancellation:
// the key of a writing method stands in the inner params.  Faults point into the inner params.
// sheet.make only makes the sheet, of an answer that the caller has already.  A method without a
// sheet of its own is shown in a general form.  Actions that need rights which the caller does not
// have are left out.
//
// Errors: those of the method; Error(method_unknown); Error(params, "no_sheet_of_sheets") for the
// two methods themselves.
#pragma once

#include "sdk/method/about.hpp"
#include "sdk/sheet/sheet.hpp"

namespace barmkeep::sheet {

struct SheetShow {
    static constexpr About about{
        "sheet.show", Access::look, Effect::reads,
        "Calls a method and answers its result with the sheet that a person reads."};
    struct Params {
        std::string method;
        json::object params;
        static FieldList fields(auto) {
            return {field<&Params::method>("The method to call.").positional().length(1, 60),
                    field<&Params::params>("Its params, with the request key of a writing method. "
                                           "None if left out.")
                        .defaulted()};
        }
    };
    struct Result {
        json::value result;
        Sheet sheet;
        Instant now;
        static FieldList fields(auto) {
            return {field<&Result::result>("What the method answered."),
                    field<&Result::sheet>("The answer as a person reads it."),
                    field<&Result::now>("The daemon's clock when the sheet was made.")};
        }
    };
};

struct SheetMake {
    static constexpr About about{"sheet.make", Access::look, Effect::reads,
                                 "Makes the sheet of an answer that you have already."};
    struct Params {
        std::string method;
        json::object params;
        json::value result;
        static FieldList fields(auto) {
            return {
                field<&Params::method>("The method that was called.").positional().length(1, 60),
                field<&Params::params>("Its params. None if left out.").defaulted(),
                field<&Params::result>("What it answered.")};
        }
    };
    struct Result {
        Sheet sheet;
        Instant now;
        static FieldList fields(auto) {
            return {field<&Result::sheet>("The answer as a person reads it."),
                    field<&Result::now>("The daemon's clock when the sheet was made.")};
        }
    };
};

} // namespace barmkeep::sheet
