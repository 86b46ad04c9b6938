// The exchanges of the specification, and those that follow from its rules.
#pragma once

#include "tests/protocol/example_methods.hpp"

#include <algorithm>
#include <fstream>
#include <sstream>

namespace barmkeep::tests {

struct SpecCase {
    std::string id;
    std::string title;
    std::string request;               ///< one line
    std::vector<std::string> accepted; ///< empty text: nothing at all is sent
};

inline std::string one_line(std::string text) {
    std::erase(text, '\n');
    return text;
}

inline std::vector<SpecCase> spec_cases(const std::string& folder) {
    std::ifstream file{folder + "/jsonrpc_examples.json"};
    std::stringstream text;
    text << file.rdbuf();
    const json::value all = parse_json(text.str());
    const auto response = [](const json::value& value) {
        return value.is_null() ? std::string{} : one_line(std::string(value.as_string()));
    };
    std::vector<SpecCase> cases;
    for (const char* list : {"examples", "derived"})
        for (const auto& one : all.at(list).as_array()) {
            SpecCase made{std::string(one.at("id").as_string()),
                          std::string(one.at("title").as_string()),
                          with_our_names(one_line(std::string(one.at("request").as_string()))),
                          {response(one.at("response"))}};
            if (const auto* others = one.as_object().if_contains("accept_alternative"))
                for (const auto& other : others->as_array())
                    made.accepted.push_back(response(other));
            cases.push_back(std::move(made));
        }
    return cases;
}

/// Keeps what the specification fixes: of an error, its code and its id.
inline json::value comparable(const json::value& reply) {
    if (const auto* batch = reply.if_array()) {
        std::vector<std::string> each;
        for (const auto& one : *batch)
            each.push_back(write_json(comparable(one)));
        std::sort(each.begin(), each.end());
        json::array sorted;
        for (const auto& one : each)
            sorted.push_back(json::value(one));
        return sorted;
    }
    json::object kept{{"jsonrpc", reply.at("jsonrpc")}, {"id", reply.at("id")}};
    const auto& object = reply.as_object();
    if (const auto* error = object.if_contains("error"))
        kept["error"] = error->at("code");
    if (const auto* result = object.if_contains("result"))
        kept["result"] = *result;
    return kept;
}

/// Whether what was sent (one line or nothing) is one of the accepted answers.
inline bool fits(const std::string& sent, const SpecCase& one) {
    return std::any_of(one.accepted.begin(), one.accepted.end(), [&](const std::string& wanted) {
        if (sent.empty() || wanted.empty())
            return sent.empty() && wanted.empty();
        return comparable(parse_json(sent)) == comparable(parse_json(wanted));
    });
}

} // namespace barmkeep::tests
