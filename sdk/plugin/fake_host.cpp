#include "sdk/plugin/fake_host.hpp"

#include <cassert>

namespace barmkeep::plugin {

FakeHost::FakeHost(Instant start) : clock_{start} {
    add_recall();
}

FakeHost::~FakeHost() {
    stop();
}

void FakeHost::start(const barmkeep_plugin* plugin, const json::object& settings) {
    assert(!hosted_);
    auto hosted = std::make_unique<Hosted>(
        plugin, Hosted::Services{methods_, clock_, [this](LogLevel level, std::string_view text) {
                                     const std::scoped_lock lock{mutex_};
                                     log_lines_.push_back({level, std::string(text)});
                                 }});
    hosted->start(settings);
    hosted_ = std::move(hosted);
    const Manifest& manifest = hosted_->manifest();
    for (const auto& method : manifest.methods)
        methods_.add(method, manifest.name,
                     [this, name = method.name](const Call& call, const json::object& params,
                                                const Done& done) {
                         done(hosted_->call(name, call, params));
                     });
}

void FakeHost::stop() noexcept {
    if (!hosted_)
        return;
    methods_.remove_provider(hosted_->manifest().name);
    hosted_->stop();
    hosted_.reset();
}

Call FakeHost::circumstances() {
    Call call;
    call.caller = {"anna", Access::manage, ""};
    return call;
}

Outcome FakeHost::call(std::string_view method, const json::object& params, const Call& call) {
    const json::value sent = params;
    return methods_.call(method, call, &sent);
}

void FakeHost::deliver(std::string topic, json::object about) {
    const contract::Event event{++sequence_, clock_.now(), std::move(topic), std::move(about)};
    if (hosted_ && hosted_->wants(event.topic))
        hosted_->event(event);
}

sheet::Sheet FakeHost::sheet(std::string_view method, const json::object& params,
                             const json::value& result) const {
    const auto made = hosted_->sheet(method, params, result);
    if (!made)
        throw Error(ErrorKind::unavailable, "no_sheet",
                    "The plugin made no sheet for " + std::string(method) + ".",
                    "log_lines() has the reason.");
    return decode<sheet::Sheet>(*made);
}

std::vector<FakeHost::LogLine> FakeHost::log_lines() const {
    const std::scoped_lock lock{mutex_};
    return log_lines_;
}

void FakeHost::add_recall() {
    using contract::LedgerRecall;
    add_direct<LedgerRecall>(
        methods_, "core", [this](const Call& asked, const LedgerRecall::Params& params) {
            Call call = asked;
            call.key = params.of;
            const auto before = kept(call);
            return LedgerRecall::Result{before.has_value(), before.value_or(nullptr)};
        });
}

std::optional<json::value> FakeHost::kept(const Call& call) const {
    const std::scoped_lock lock{mutex_};
    const auto found = kept_.find(call.key);
    if (call.key.empty() || found == kept_.end())
        return std::nullopt;
    if (!call.digest.empty() && found->second.digest != call.digest)
        throw Error(ErrorKind::conflict, "key_used",
                    "The request key '" + call.key + "' was used for another request.",
                    "Give each request a key of its own.");
    return found->second.answer;
}

void FakeHost::keep(const Call& call, const json::value& answer) {
    if (call.key.empty())
        return;
    const std::scoped_lock lock{mutex_};
    kept_.emplace(call.key, Kept{call.digest, answer});
}

} // namespace barmkeep::plugin
