// Who waits for a long work.
#pragma once

#include "sdk/method/call.hpp"

#include <gtest/gtest.h>
#include <stop_token>

namespace barmkeep::ledger {

/// Hears progress, and may ask to stop at the first of it.
class Watcher final : public Listener {
public:
    bool notify(std::string_view method, json::object params) override {
        EXPECT_EQ(method, "call.progress");
        ++heard;
        EXPECT_GE(params.at("progress").to_number<double>(), done);
        EXPECT_LE(params.at("progress").to_number<double>(),
                  params.at("total").to_number<double>());
        done = params.at("progress").to_number<double>();
        if (stops)
            source.request_stop();
        return true;
    }
    int heard = 0;
    double done = 0; ///< never falls
    bool stops = false;
    std::stop_source source;
};

/// The call as the watcher makes it.
inline Call watched(Call call, const std::shared_ptr<Watcher>& watcher) {
    watcher->done = 0;
    call.listener = watcher;
    call.progress_token = 1;
    call.cancelled = watcher->source.get_token();
    return call;
}

} // namespace barmkeep::ledger
