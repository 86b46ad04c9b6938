// barm: one run of it.
#pragma once

#include "daemon/client/completion.hpp"
#include "daemon/client/display.hpp"
#include "sdk/sheet/reader.hpp"

namespace barmkeep::barm {

class Program {
public:
    /// `words`: the command line without the program's name.
    Program(const Outside& outside, std::vector<std::string> words)
        : outside_{outside}, words_{std::move(words)} {}

    /// Runs the command, and shows every error.  Does not throw.
    [[nodiscard]] ExitCode run() noexcept;

private:
    ExitCode run_or_throw();
    ExitCode run_front();
    ExitCode run_own(const Command& command, std::size_t first);
    ExitCode run_method(const std::string& noun, std::size_t first);
    ExitCode run_command(const Command& command, std::size_t first);

    ExitCode help();
    /// `barm help WORD [VERB]`: a topic, a noun or a command.
    ExitCode help_on(const std::string& word, const std::string& verb);
    ExitCode help(const std::string& noun, const std::string& verb);
    ExitCode glance();
    ExitCode versions();
    ExitCode manual(const json::object& params);
    ExitCode settings();
    ExitCode send(const json::object& params);
    ExitCode complete();
    ExitCode watch(const json::object& params);
    ExitCode call(const Command& command, const json::object& params);

    /// What only the daemon knows, for completion; nothing where it does not answer.
    template <class M>
    [[nodiscard]] typename M::Result one_page();
    [[nodiscard]] std::vector<Candidate> fetched(Source source);
    /// Takes the options that say which daemon to ask, wherever they stand: without the daemon
    /// nobody knows what the other words mean.
    void take_where_to_ask(std::size_t first);
    /// Takes the global options given so far.
    void take_globals(const Sorted& sorted);
    /// The commands known so far, to name them in an error; null for `barm send`, whose user
    /// calls methods.
    [[nodiscard]] const Catalogue* command_catalogue() const;
    [[nodiscard]] client::Client& daemon();
    [[nodiscard]] client::ClientOptions client_options() const;
    [[nodiscard]] client::Located socket() const;
    [[nodiscard]] std::chrono::milliseconds time_out() const;
    [[nodiscard]] const Catalogue& catalogue();
    [[nodiscard]] client::Answer answer(const Command& command, const json::object& params);
    /// Asks the daemon for a command, with its key, its progress and Ctrl-C.
    template <class Ask>
    auto asked(const Command& command, Ask ask);
    /// Prints the sheet of a command's answer, or writes it as a page.
    ExitCode show_sheet(const Command& command, const json::object& params);
    [[nodiscard]] sheet::Reader reader_at(Instant now);
    [[nodiscard]] ValueContext value_context();
    /// The style with the cellar's units and currency, or what stands for them if the daemon does
    /// not say.
    [[nodiscard]] Style cellar_style();
    [[nodiscard]] Style cellar_style(const contract::Cellar& cellar) const;

    const Outside& outside_;
    std::vector<std::string> words_;
    json::object globals_given_;
    Globals globals_;
    std::optional<Preferences> preferences_;
    std::optional<Display> display_;
    std::optional<client::Client> client_;
    std::optional<Catalogue> catalogue_;
    // What an error is about, for its words.
    std::string command_;
    std::string usage_;
    std::vector<Option> options_;
};

} // namespace barmkeep::barm
