#include "daemon/client/own_commands.hpp"

namespace barmkeep::barm {

const std::vector<Command>& own_commands() {
    static const std::vector<Command> all{command_of(describe<HelpCommand>(), "barm"),
                                          command_of(describe<ManualCommand>(), "barm"),
                                          command_of(describe<SettingsCommand>(), "barm"),
                                          command_of(describe<SendCommand>(), "barm"),
                                          command_of(describe<CompleteCommand>(), "barm")};
    return all;
}

const Command* own_command(std::string_view name) {
    for (const auto& command : own_commands())
        if (command.noun == name)
            return &command;
    return nullptr;
}

} // namespace barmkeep::barm
