#include "sdk/sheet/actions.hpp"

namespace barmkeep::sheet {
namespace {

/// Calls `visit` with every optional action of the blocks.
template <class Blocks, class Visit>
void visit_actions(Blocks& blocks, const Visit& visit) {
    for (auto& block : blocks) {
        if (auto* table = std::get_if<Table>(&block.content))
            for (auto& row : table->rows)
                visit(row.action);
        if (auto* steps = std::get_if<Steps>(&block.content))
            for (auto& step : steps->steps)
                visit(step.action);
        if (auto* warning = std::get_if<Warning>(&block.content))
            visit(warning->action);
        if (auto* more = std::get_if<More>(&block.content))
            visit_actions(more->blocks, visit);
    }
}

} // namespace

std::vector<const Action*> actions_of(const Sheet& sheet) {
    std::vector<const Action*> actions;
    for (const Action& action : sheet.actions)
        actions.push_back(&action);
    visit_actions(sheet.blocks, [&](const std::optional<Action>& action) {
        if (action)
            actions.push_back(&*action);
    });
    return actions;
}

void keep_actions(Sheet& sheet, const std::function<bool(const Action&)>& is_wanted) {
    std::erase_if(sheet.actions, [&](const Action& action) { return !is_wanted(action); });
    visit_actions(sheet.blocks, [&](std::optional<Action>& action) {
        if (action && !is_wanted(*action))
            action.reset();
    });
}

} // namespace barmkeep::sheet
