#include "sdk/plugin/check/check.hpp"

#include <boost/dll/shared_library.hpp>
#include <cstdlib>
#include <future>
#include <ostream>
#include <set>

namespace barmkeep::plugin {
namespace {

/// Nothing a method could take for its own, and values that fit no field.
std::vector<json::object> absurd_params(const Description& method) {
    const std::string long_text(100'000, 'x');
    const json::array absurd{nullptr,
                             -1,
                             1e300,
                             "",
                             long_text,
                             json::array{json::array{json::object{}}},
                             json::object{{"", json::array{nullptr, 0.5}}},
                             "\xf0\x9f\x8d\xba \"\\/"};
    std::vector<json::object> all{{}, {{"no_such_field_of_any_method", absurd[5]}}};
    const auto* properties = method.params.if_contains("properties");
    for (const auto& value : absurd) {
        json::object filled;
        if (properties != nullptr && properties->is_object())
            for (const auto& property : properties->get_object())
                filled[property.key()] = value;
        all.push_back(std::move(filled));
    }
    return all;
}

class Check {
public:
    Check(const CheckOptions& options, std::ostream& out) : options_{options}, out_{out} {}

    int run() {
        if (load() && describe() && start("starts with its settings")) {
            call_all();
            deliver_all();
            stop();
            if (start("starts again after its stop"))
                stop();
        }
        return failures_;
    }

private:
    bool load() {
        return step("is a shared object that exports " BARMKEEP_PLUGIN_ENTRY_NAME, [this] {
            library_.load(std::filesystem::absolute(options_.file),
                          boost::dll::load_mode::rtld_now | boost::dll::load_mode::rtld_local);
            plugin_ = library_.get<const barmkeep_plugin*()>(BARMKEEP_PLUGIN_ENTRY_NAME)();
        });
    }

    bool describe() {
        return step("has a sound descriptor", [this] { check_descriptor(plugin_); }) &&
               step("describes itself soundly", [this] { manifest_ = read_manifest(*plugin_); }) &&
               step("bears the name of its file", [this] { require_name(); });
    }

    void require_name() const {
        if (manifest_.name != options_.file.stem())
            throw std::runtime_error("it calls itself " + manifest_.name + "; name the file " +
                                     manifest_.name + ".so");
    }

    bool start(const std::string& what) {
        return step(what, [this] { host_.start(plugin_, options_.settings); });
    }

    void stop() {
        step("stops", [this] { host_.stop(); });
    }

    void call_all() {
        for (const auto& method : manifest_.methods) {
            step("answers " + method.name + " soundly, whatever its params", [&] {
                for (const auto& params : absurd_params(method))
                    require_sound(host_.call(method.name, params));
            });
            step("ends " + method.name + " when it is cancelled", [&] {
                std::stop_source source;
                source.request_stop();
                Call call = FakeHost::circumstances();
                call.cancelled = source.get_token();
                require_sound(host_.call(method.name, {}, call));
            });
        }
    }

    static void require_sound(const Outcome& outcome) {
        static const std::set<std::string> faults{"plugin_invalid", "plugin_silent",
                                                  "plugin_answered_twice", "plugin_threw"};
        const auto* error = std::get_if<Error>(&outcome);
        if (error == nullptr)
            return;
        if (faults.contains(error->reason()) || error->kind() == ErrorKind::internal)
            throw *error;
    }

    void deliver_all() {
        for (const auto& beginning : manifest_.events)
            step("takes events of " + beginning, [&] {
                const std::size_t before = host_.log_lines().size();
                host_.deliver(beginning + "changed");
                host_.deliver(beginning + "changed", {{"lot", json::array{-1}}});
                for (std::size_t i = before; i < host_.log_lines().size(); ++i)
                    if (host_.log_lines()[i].text.find("threw an exception") != std::string::npos)
                        throw std::runtime_error(host_.log_lines()[i].text);
            });
    }

    /// Does a step, prints how it went, and ends the process if it does not end.
    bool step(const std::string& what, const std::function<void()>& work) {
        auto ended = std::async(std::launch::async, work);
        if (ended.wait_for(options_.time_max) == std::future_status::timeout) {
            out_ << "FAILS  " << what << ": does not end within " << options_.time_max.count()
                 << " ms" << std::endl;
            std::_Exit(EXIT_FAILURE); // to wait for its thread would be to hang with it
        }
        try {
            ended.get();
            out_ << "ok     " << what << "\n";
            return true;
        } catch (const Error& error) {
            tell(what, std::string(error.what()) + " " + error.hint());
        } catch (const std::exception& error) {
            tell(what, error.what());
        } catch (...) {
            tell(what, "it threw something that is no exception");
        }
        return false;
    }

    void tell(const std::string& what, const std::string& why) {
        ++failures_;
        out_ << "FAILS  " << what << ": " << why << "\n";
    }

    const CheckOptions& options_;
    std::ostream& out_;
    int failures_ = 0;
    boost::dll::shared_library library_; ///< before the host, which calls into it to the end
    const barmkeep_plugin* plugin_ = nullptr;
    Manifest manifest_;
    FakeHost host_;
};

} // namespace

int check_plugin(const CheckOptions& options, std::ostream& out) {
    return Check{options, out}.run();
}

} // namespace barmkeep::plugin
