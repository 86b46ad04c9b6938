#include "sdk/method/call.hpp"

#include "sdk/brewing/errors.hpp"
#include "sdk/method/nearest.hpp"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <fmt/format.h>
#include <future>

namespace barmkeep {
namespace {

bool well_formed(std::string_view name) {
    const auto dot = name.find('.');
    if (dot == std::string_view::npos || dot == 0 || dot + 1 == name.size())
        return false;
    if (name.find('.', dot + 1) != std::string_view::npos || name.size() > 60)
        return false;
    return name.find_first_not_of("abcdefghijklmnopqrstuvwxyz_.") == std::string_view::npos;
}

/// Takes the request key out of the params of a writing method.
std::string take_key(json::object& params) {
    const auto* given = params.if_contains(request_key_field);
    if (given == nullptr)
        return {};
    ParseContext reading;
    const ParseContext::Step step{reading, request_key_field};
    auto key = Codec<std::string>::read(*given, reading);
    if (key && (key->empty() || key->size() > request_key_length_max))
        reading.fault("out_of_range", fmt::format("A request key must have 1 to {} characters.",
                                                  request_key_length_max));
    reading.throw_faults();
    params.erase(request_key_field);
    return std::move(*key);
}

/// The same value with the members of every object in order of name.
json::value sorted(const json::value& value) {
    if (const auto* array = value.if_array()) {
        json::array all;
        for (const auto& element : *array)
            all.push_back(sorted(element));
        return all;
    }
    const auto* object = value.if_object();
    if (object == nullptr)
        return value;
    std::map<std::string, json::value> members;
    for (const auto& member : *object)
        members.emplace(member.key(), sorted(member.value()));
    json::object ordered;
    for (auto& [name, member] : members)
        ordered.emplace(name, std::move(member));
    return ordered;
}

} // namespace

void require_access(const Caller& caller, Access needed, std::string_view method,
                    std::string_view pointer) {
    if (caller.access >= needed)
        return;
    throw Error(ErrorKind::refused, "not_allowed",
                fmt::format("{} has the right '{}', but {} needs '{}'.", caller.name,
                            to_string(caller.access), method, to_string(needed)),
                "Ask the cellar's owner to change your rights in the settings, section [access].",
                pointer);
}

std::string request_digest(std::string_view method, const json::value& params) {
    // A name-based UUID is SHA-1 over the text: no accident makes two requests alike.
    const boost::uuids::name_generator_sha1 digest_of{boost::uuids::ns::oid()};
    return boost::uuids::to_string(
        digest_of(std::string(method) + '\n' + write_json(sorted(params))));
}

void send_progress(const Call& call, double done, double total, std::string_view message) {
    if (!call.listener || call.progress_token.is_null())
        return;
    call.listener->notify("call.progress", {{"token", call.progress_token},
                                            {"progress", done},
                                            {"total", total},
                                            {"message", message}});
}

void MethodTable::add(Description description, std::string provider, Start start, MakeSheet sheet) {
    if (!well_formed(description.name))
        throw Error(ErrorKind::conflict, "bad_method_name",
                    "'" + description.name + "' is not a method name.",
                    "A method name has the form noun.verb, in lower case.");
    put_required_first(description.params);
    description.has_sheet = sheet != nullptr;
    if (description.effect == Effect::writes) {
        // Said here, once, for every writing method of the core and of the plugins.
        description.params["properties"].get_object()[request_key_field] =
            json::object{{"type", "string"},
                         {"minLength", 1},
                         {"maxLength", request_key_length_max},
                         {"description", "Request key: the same request with the same key is done "
                                         "once, and its answer is sent again. If left out: every "
                                         "request is done."}};
    }
    const std::unique_lock lock{mutex_};
    const std::string name = description.name;
    auto row = std::make_shared<const Row>(
        Row{std::move(description), std::move(provider), std::move(start), std::move(sheet)});
    const auto [at, added] = rows_.emplace(name, std::move(row));
    if (!added)
        throw Error(
            ErrorKind::conflict, "method_taken",
            fmt::format("The method {} already exists; {} added it.", name, at->second->provider));
    ++generation_;
}

void MethodTable::remove_provider(std::string_view provider) {
    const std::unique_lock lock{mutex_};
    std::erase_if(rows_, [&](const auto& entry) { return entry.second->provider == provider; });
    ++generation_;
}

std::shared_ptr<const MethodTable::Row> MethodTable::find(std::string_view name) const {
    const std::shared_lock lock{mutex_};
    const auto found = rows_.find(name);
    return found == rows_.end() ? nullptr : found->second;
}

std::shared_ptr<const MethodTable::Row> MethodTable::require(std::string_view name) const {
    if (auto row = find(name))
        return row;
    std::vector<std::string> known;
    for (const auto& other : rows())
        known.push_back(other->description.name);
    const auto near = nearest(name, known);
    throw Error(ErrorKind::method_unknown, "method_unknown",
                fmt::format("There is no method '{}'.", name),
                near ? "Did you mean " + *near + "?" : "Call rpc.discover for all methods.");
}

std::vector<std::shared_ptr<const MethodTable::Row>> MethodTable::rows() const {
    const std::shared_lock lock{mutex_};
    std::vector<std::shared_ptr<const Row>> all;
    for (const auto& [name, row] : rows_)
        all.push_back(row);
    return all;
}

void MethodTable::start(std::string_view name, Call call, const json::value* params,
                        const Done& done) const {
    try {
        if (call.arrived == Instant{})
            call.arrived = now();
        const auto row = require(name);
        require_access(call.caller, row->description.access, row->description.name);
        json::object named = named_params(params, row->description);
        if (row->description.effect == Effect::writes)
            call.key = take_key(named);
        if (!call.key.empty() && call.digest.empty())
            call.digest = request_digest(name, named);
        row->start(std::move(call), std::move(named), done);
    } catch (const Error& error) {
        done(error);
    } catch (const std::exception& error) {
        done(Error(ErrorKind::internal, "internal", error.what(),
                   "This is a bug. The daemon's log has the reason."));
    }
}

Outcome MethodTable::call(std::string_view name, Call call, const json::value* params) const {
    auto promise = std::make_shared<std::promise<Outcome>>();
    auto outcome = promise->get_future();
    start(name, std::move(call), params,
          [promise](Outcome result) { promise->set_value(std::move(result)); });
    return outcome.get();
}

namespace {

/// What the exception being handled is as an error.
Error error_being_handled() {
    try {
        throw;
    } catch (const Error& error) {
        return error;
    } catch (const brewing::OutOfRange& error) {
        return error_of(error);
    } catch (const std::exception& error) {
        return {ErrorKind::internal, "internal", error.what(),
                "This is a bug. The daemon's log has the reason."};
    } catch (...) { // a plugin's author may throw anything
        return {ErrorKind::internal, "internal", "Something other than an exception was thrown.",
                "This is a bug. The daemon's log has the reason."};
    }
}

} // namespace

void answer(const Done& done, const std::function<json::value()>& work) noexcept {
    Outcome outcome = json::value(nullptr);
    try {
        outcome = work();
    } catch (...) {
        outcome = error_being_handled();
    }
    done(std::move(outcome));
}

void answer_or_fail(const Done& done, const std::function<void()>& work) noexcept {
    std::optional<Error> failure;
    try {
        work();
    } catch (...) {
        failure = error_being_handled();
    }
    if (failure)
        done(std::move(*failure));
}

} // namespace barmkeep
