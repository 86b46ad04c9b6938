// Methods for tests: those that the specification's examples call, and some that wait.
#pragma once

#include "sdk/method/call.hpp"

#include <condition_variable>
#include <deque>
#include <mutex>

namespace barmkeep::tests {

struct Subtract {
    static constexpr About about{"example.subtract", Access::look, Effect::reads, "Subtracts."};
    struct Params {
        std::int64_t minuend = 0;
        std::int64_t subtrahend = 0;
        static FieldList fields(auto) {
            return {field<&Params::minuend>("From this."),
                    field<&Params::subtrahend>("Take that.")};
        }
    };
    struct Result {};
};

/// The examples give sum three numbers by position, and update five.
struct Numbers {
    std::optional<std::int64_t> a, b, c, d, e;
    static FieldList fields(auto) {
        return {field<&Numbers::a>("First."), field<&Numbers::b>("Second."),
                field<&Numbers::c>("Third."), field<&Numbers::d>("Fourth."),
                field<&Numbers::e>("Fifth.")};
    }
};

template <class Params>
Description example(std::string name, Access access = Access::look, Effect effect = Effect::reads) {
    return {std::move(name),
            access,
            effect,
            "An example.",
            false,
            Codec<Params>::schema(Direction::taken),
            {}};
}

inline void add_example(MethodTable& table, Description description,
                        std::function<json::value(const Call&, const json::object&)> work) {
    table.add(std::move(description), "example",
              [work](const Call& call, const json::object& params, const Done& done) {
                  answer(done, [&] { return work(call, params); });
              });
}

/// A method name of ours has a noun and a verb; the specification's examples have one word.
inline std::string with_our_names(std::string text) {
    for (const std::string name :
         {"subtract", "sum", "get_data", "update", "notify_hello", "notify_sum"}) {
        const std::string theirs = "\"method\": \"" + name + "\"";
        const std::string ours = "\"method\": \"example." + name + "\"";
        for (auto at = text.find(theirs); at != std::string::npos; at = text.find(theirs, at + 1))
            text.replace(at, theirs.size(), ours);
    }
    return text;
}

inline void add_spec_examples(MethodTable& table) {
    add_example(table, example<Subtract::Params>("example.subtract"),
                [](const Call&, const json::object& params) -> json::value {
                    const auto given = read_as<Subtract::Params>(params);
                    return given.minuend - given.subtrahend;
                });
    add_example(table, example<Numbers>("example.sum"),
                [](const Call&, const json::object& params) -> json::value {
                    const auto given = read_as<Numbers>(params);
                    return given.a.value_or(0) + given.b.value_or(0) + given.c.value_or(0);
                });
    add_example(table, example<Nothing>("example.get_data"),
                [](const Call&, const json::object&) -> json::value {
                    return json::array{"hello", 5};
                });
    for (const char* name : {"example.update", "example.notify_hello", "example.notify_sum"})
        add_example(table, example<Numbers>(name),
                    [](const Call&, const json::object&) -> json::value { return nullptr; });
}

/// A method that answers when the test says so, from whatever thread the test is on.
class Held {
public:
    struct One {
        Call call;
        json::object params;
        Done done;
    };

    void add_to(MethodTable& table, const std::string& name) {
        Description description = example<Nothing>(name);
        description.params = {{"type", "object"},
                              {"properties", json::object{{"n", json::object{}}}}};
        table.add(std::move(description), "example",
                  [this](Call call, json::object params, Done done) {
                      const std::lock_guard lock{mutex_};
                      calls_.push_back({std::move(call), std::move(params), std::move(done)});
                      arrived_.notify_all();
                  });
    }
    /// The oldest call not yet taken; waits for it.
    One take() {
        std::unique_lock lock{mutex_};
        arrived_.wait(lock, [&] { return !calls_.empty(); });
        One one = std::move(calls_.front());
        calls_.pop_front();
        return one;
    }
    std::size_t count() {
        const std::lock_guard lock{mutex_};
        return calls_.size();
    }

private:
    std::mutex mutex_;
    std::condition_variable arrived_;
    std::deque<One> calls_;
};

} // namespace barmkeep::tests
