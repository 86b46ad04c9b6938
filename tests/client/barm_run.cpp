#include "tests/client/barm_run.hpp"

#include "daemon/client/program.hpp"

namespace barmkeep::test {
namespace {

/// Hands the test's button to a run, which wants to own what it is given.
class BorrowedButton final : public client::Interruption {
public:
    explicit BorrowedButton(client::StopButton& button) : button_{button} {}
    [[nodiscard]] int descriptor() const noexcept override { return button_.descriptor(); }
    [[nodiscard]] bool take() noexcept override { return button_.take(); }

private:
    client::StopButton& button_;
};

std::optional<std::string> look_up(const std::map<std::string, std::string, std::less<>>& texts,
                                   std::string_view name) {
    const auto found = texts.find(name);
    return found == texts.end() ? std::nullopt : std::optional(found->second);
}

} // namespace

Ran run_barm(World& world, std::vector<std::string> words) {
    Ran ran;
    barm::Outside outside;
    outside.environment = [&](std::string_view name) {
        return look_up(world.environment, name);
    };
    outside.read_file = [&](const std::string& path) {
        return look_up(world.files, path);
    };
    outside.read_stdin = [&] {
        return world.standard_input;
    };
    outside.write_file = [&](const std::string& path, std::string_view text) {
        world.files[path] = text;
    };
    outside.out = [&](std::string_view text) {
        if (world.reads_stdout)
            ran.out += text;
        return world.reads_stdout;
    };
    outside.err = [&](std::string_view text) {
        ran.err += text;
    };
    outside.page = [&](std::string_view text, const std::string& pager) {
        world.paged = pager + ": " + std::string(text);
        return true;
    };
    if (world.button != nullptr)
        outside.interruption = [&] {
            return std::make_unique<BorrowedButton>(*world.button);
        };
    outside.out_is_terminal = world.out_is_terminal;
    outside.err_is_terminal = world.err_is_terminal;
    outside.has_utf8 = world.has_utf8;
    outside.width = world.width;
    outside.height = world.height;
    ran.code = static_cast<int>(barm::Program{outside, std::move(words)}.run());
    return ran;
}

} // namespace barmkeep::test
