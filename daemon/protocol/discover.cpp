#include "daemon/protocol/discover.hpp"

#include "sdk/contract/event.hpp"
#include "sdk/method/schema_words.hpp"

#include <algorithm>
#include <array>

namespace barmkeep::protocol {
namespace {

struct Known {
    ErrorKind kind;
    std::string_view name;
    std::string_view message;
};

/// Every error that a method can answer, with the name of its entry in the document.
constexpr std::array errors{
    Known{ErrorKind::params, "params", "The parameters are wrong; data lists every fault."},
    Known{ErrorKind::not_found, "not_found", "What the request names does not exist."},
    Known{ErrorKind::not_enough, "not_enough", "There is less in stock than asked for."},
    Known{ErrorKind::conflict, "conflict", "The state of the cellar forbids it."},
    Known{ErrorKind::refused, "refused", "The caller lacks the right to do it."},
    Known{ErrorKind::busy, "busy", "A limit was reached; try again later."},
    Known{ErrorKind::cancelled, "cancelled", "The caller cancelled it."},
    Known{ErrorKind::unknown_outcome, "unknown_outcome",
          "The outcome is unknown. Ask again with the same key."},
    Known{ErrorKind::unavailable, "unavailable", "A plugin or the disk does not answer."},
    Known{ErrorKind::method_unknown, "method_unknown", "There is no such method."},
    Known{ErrorKind::request, "request", "The request is malformed."},
    Known{ErrorKind::text, "text", "The line is not JSON."},
    Known{ErrorKind::internal, "internal", "A fault of the program."},
};

json::object error_components() {
    json::object all;
    for (const auto& known : errors)
        all.emplace(known.name,
                    json::object{{"code", code_of(known.kind)}, {"message", known.message}});
    return all;
}

/// The errors that a method may answer beside those of any request.
json::array errors_of(const Description& method) {
    std::vector<ErrorKind> kinds{ErrorKind::params,      ErrorKind::not_found, ErrorKind::conflict,
                                 ErrorKind::refused,     ErrorKind::busy,      ErrorKind::cancelled,
                                 ErrorKind::unavailable, ErrorKind::internal};
    if (method.effect == Effect::writes)
        kinds.insert(kinds.end(), {ErrorKind::not_enough, ErrorKind::unknown_outcome});
    json::array all;
    for (const auto& known : errors)
        if (std::find(kinds.begin(), kinds.end(), known.kind) != kinds.end())
            all.push_back(json::object{{"$ref", "#/components/errors/" + std::string(known.name)}});
    return all;
}

/// The table has put the required ones first, as the document demands.
json::array params_of(const Description& method) {
    json::array all;
    for (const auto& property : method.params.at("properties").as_object()) {
        json::object param{{"name", property.key()}};
        if (const auto* schema = property.value().if_object())
            if (const auto* doc = schema->if_contains("description"))
                param["summary"] = *doc;
        param["required"] = is_required(method.params, property.key());
        param["schema"] = property.value();
        all.push_back(std::move(param));
    }
    return all;
}

json::object method_entry(const MethodTable::Row& row) {
    const Description& method = row.description;
    const std::string noun = method.name.substr(0, method.name.find('.'));
    return {{"name", method.name},
            {"summary", method.doc},
            {"tags", json::array{json::object{{"name", noun}}}},
            {"paramStructure", "either"},
            {"params", params_of(method)},
            {"result", json::object{{"name", "result"}, {"schema", method.result}}},
            {"errors", errors_of(method)},
            {"x-access", to_string(method.access)},
            {"x-effect", to_string(method.effect)},
            {"x-long", method.is_long},
            {"x-sheet", method.has_sheet},
            {"x-provider", row.provider}};
}

/// A path as a URI: everything but the plainest characters is escaped.
std::string unix_url(std::string_view path) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string url = "unix://";
    for (const char c : path) {
        const auto byte = static_cast<unsigned char>(c);
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') ||
                           std::string_view("/-._~").find(c) != std::string_view::npos;
        if (plain)
            url += c;
        else
            url.append({'%', digits[byte >> 4], digits[byte & 15]});
    }
    return url;
}

json::object info(const Program& program) {
    return {{"title", "Barmkeep"},
            {"version", protocol_version},
            {"description", "A keeper for the cellar of a home brewer who cans starter wort.  One "
                            "compact JSON-RPC 2.0 text a line over a Unix socket."},
            {"x-program-version", program.version}};
}

} // namespace

json::object discover_document(const MethodTable& methods, const Program& program,
                               const Limits& limits) {
    json::object document{{"openrpc", "1.3.2"}, {"info", info(program)}};
    if (!program.socket_path.empty())
        document["servers"] =
            json::array{json::object{{"name", "local"}, {"url", unix_url(program.socket_path)}}};
    json::array entries;
    for (const auto& row : methods.rows())
        entries.push_back(method_entry(*row));
    document["methods"] = std::move(entries);
    document["components"] = json::object{{"errors", error_components()}};
    document["x-limits"] = limits.to_json();
    json::array topics;
    for (const auto& topic : enum_names(contract::Topic{}))
        topics.push_back(json::value(topic.text));
    document["x-topics"] = std::move(topics);
    return document;
}

std::shared_ptr<const json::object>
DiscoverCache::document(const MethodTable& methods, const Program& program, const Limits& limits) {
    const std::scoped_lock lock{mutex_}; // those who ask while it is built wait for it
    // Read first: a change while it is built makes it old at once.
    const std::uint64_t generation = methods.generation();
    if (!document_ || generation != generation_)
        document_ =
            std::make_shared<const json::object>(discover_document(methods, program, limits));
    generation_ = generation;
    return document_;
}

} // namespace barmkeep::protocol
