// Messages of the process of record: the brewer's own pressure, time and source.
#pragma once

#include "plugins/canning/cautions.hpp"
#include "sdk/contract/equipment.hpp"

namespace barmkeep::canning {

/// What a process is run in.  Only a pressure canner is accepted; the others are here so that the
/// refusal can say why.
enum class Appliance {
    pressure_canner,
    boiling_water_bath,
    steam_canner,
    oven,
    open_kettle,
    multicooker,
    pressure_saucepan,
    microwave,
    dishwasher,
    other
};
constexpr auto enum_names(Appliance) {
    using N = EnumName<Appliance>;
    return std::array{N{Appliance::pressure_canner, "pressure_canner"},
                      N{Appliance::boiling_water_bath, "boiling_water_bath"},
                      N{Appliance::steam_canner, "steam_canner"},
                      N{Appliance::oven, "oven"},
                      N{Appliance::open_kettle, "open_kettle"},
                      N{Appliance::multicooker, "multicooker"},
                      N{Appliance::pressure_saucepan, "pressure_saucepan"},
                      N{Appliance::microwave, "microwave"},
                      N{Appliance::dishwasher, "dishwasher"},
                      N{Appliance::other, "other"}};
}

/// As kept in the cellar.  Every figure is the brewer's; none has a default.
struct Process {
    std::string name;
    std::string jar;
    contract::Gauge gauge = contract::Gauge::dial;
    Appliance appliance = Appliance::other;
    brewing::GaugePressure pressure;
    Seconds time{};
    std::string source;
    std::optional<std::string> note;
    static FieldList fields(auto) {
        return {field<&Process::name>("Its name.").positional().length(1, 60),
                field<&Process::jar>("The jar size it is for.").positional().length(1, 60),
                field<&Process::gauge>("The kind of gauge it is for.").positional(),
                field<&Process::appliance>("What it is run in; only a pressure canner is accepted.")
                    .like("pressure_canner"),
                field<&Process::pressure>("The brewer's pressure, as the canner truly has it.")
                    .at_most(350)
                    .like("12 psi"),
                field<&Process::time>("The brewer's time at that pressure.")
                    .between(60, 6 * 3600)
                    .like("25 min"),
                field<&Process::source>("Where the brewer has it from.").length(5, 400),
                field<&Process::note>("A note.").length(1, 400)};
    }
};

/// What is known about a pressure at the cellar's altitude.
struct AtAltitude {
    brewing::Length altitude;
    brewing::GaugePressure band;
    std::string band_source;
    brewing::Temperature steam;
    static FieldList fields(auto) {
        return {field<&AtAltitude::altitude>("The cellar's altitude."),
                field<&AtAltitude::band>(
                    "The published gauge pressure for low-acid food there; it is no process."),
                field<&AtAltitude::band_source>("Keys of its sources."),
                field<&AtAltitude::steam>(
                    "Temperature of steam at the brewer's pressure there, all air vented; it is no "
                    "proof of a process.")};
    }
};

/// That the brewer stands by a process, by typing its name.
struct Confirmation {
    std::string name;
    std::string who;
    Instant at;
    static FieldList fields(auto) {
        return {field<&Confirmation::name>("What was typed: the process's name."),
                field<&Confirmation::who>("Who typed it."), field<&Confirmation::at>("When.")};
    }
};

/// A process with what was known of it when it was recorded.
struct KeptProcess {
    Process process;
    AtAltitude at_altitude;
    std::optional<std::string> caution;
    std::optional<Confirmation> confirmed;
    static FieldList fields(auto) {
        return {field<&KeptProcess::process>("The brewer's process."),
                field<&KeptProcess::at_altitude>("What is known of its pressure."),
                field<&KeptProcess::caution>("What must be said of its time wherever it shows."),
                field<&KeptProcess::confirmed>("Who confirmed that, by the process's name.")};
    }
};

struct ProcessShown : KeptProcess {
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return joined(KeptProcess::fields(0),
                      {field<&ProcessShown::cautions>("The cautions of canning.")});
    }
};

/// process.set
struct ProcessSet {
    static constexpr About about{
        "process.set", Access::keep, Effect::writes,
        "Records the brewer's own process and its source.  Refused for all but a pressure canner, "
        "and below the pressure published for low-acid food at the cellar's altitude.  A time "
        "below the shortest published for low-acid food in such a jar must be confirmed."};
    struct Params : Process {
        std::optional<std::string> confirm;
        static FieldList fields(auto) {
            return joined(
                Process::fields(0),
                {field<&Params::confirm>("The process's name once more, where its time is shorter "
                                         "than any published for low-acid food in such a jar.")
                     .length(1, 60)});
        }
    };
    using Result = ProcessShown;
};

/// process.list
struct ProcessList {
    static constexpr About about{"process.list", Access::look, Effect::reads,
                                 "Lists the brewer's processes."};
    using Params = Nothing;
    struct Result {
        std::vector<KeptProcess> processes;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::processes>("The processes."),
                    field<&Result::cautions>("The cautions of canning.")};
        }
    };
};

/// A rule of thumb beside what comes of it.
struct Practice {
    std::string said;
    std::string computed;
    std::string status;
    static FieldList fields(auto) {
        return {field<&Practice::said>("What is said."),
                field<&Practice::computed>("What it really is."),
                field<&Practice::status>("Where it comes from.")};
    }
};

/// process.practice
struct ProcessPractice {
    static constexpr About about{
        "process.practice", Access::look, Effect::reads,
        "Shows common practice, unsourced and untested, beside what it really comes to and what "
        "is published about untested canning.  No times: there are none to show."};
    using Params = Nothing;
    struct Result {
        std::vector<Practice> practices;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::practices>("Rules of thumb, none of them a process."),
                    field<&Result::cautions>("The cautions of canning.")};
        }
    };
};

} // namespace barmkeep::canning
