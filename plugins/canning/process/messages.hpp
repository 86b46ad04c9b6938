// Messages of the process of record: the brewer's own pressure, time and source.
#pragma once

#include "plugins/canning/cautions.hpp"
#include "sdk/contract/equipment.hpp"

namespace barmkeep::canning {

/// What a process is run in. Only a pressure canner is accepted; the others are here so that the
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

/// As kept in the cellar. Every figure is the brewer's; none has a default.
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
        return {
            field<&Process::name>("Name of the process. A name that exists replaces that process.")
                .positional()
                .length(1, 60),
            field<&Process::jar>("Name of the jar size that the process is for.")
                .positional()
                .length(1, 60),
            field<&Process::gauge>("Kind of gauge that the process is for: dial or weighted.")
                .positional(),
            field<&Process::appliance>(
                "What the process runs in. Only pressure_canner is accepted.")
                .like("pressure_canner"),
            field<&Process::pressure>("Your true gauge pressure. A dial that reads high is "
                                      "corrected for when a run starts.")
                .at_most(350)
                .like("12 psi"),
            field<&Process::time>("Your time at that pressure, from 1 minute to 6 hours.")
                .between(60, 6 * 3600)
                .like("25 min"),
            field<&Process::source>(
                "Where you have pressure and time from: a book, a page, a test.")
                .length(5, 400),
            field<&Process::note>("Your own note. None if left out.").length(1, 400)};
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
                field<&AtAltitude::band>("Gauge pressure that is published for low-acid food at "
                                         "this altitude. It is no process for wort."),
                field<&AtAltitude::band_source>(
                    "Keys of its sources. barm canning cautions lists their titles."),
                field<&AtAltitude::steam>("Temperature of air-free steam at your pressure and this "
                                          "altitude. It is no proof of a process.")};
    }
};

/// That the brewer stands by a process, by typing its name.
struct Confirmation {
    std::string name;
    std::string who;
    Instant at;
    static FieldList fields(auto) {
        return {field<&Confirmation::name>("Name that was typed to confirm."),
                field<&Confirmation::who>("Who typed it."),
                field<&Confirmation::at>("When it was typed.")};
    }
};

/// A process as it is stored, with what was known of it on that day.
struct ProcessRecord {
    Process process;
    AtAltitude at_altitude;
    std::optional<std::string> process_note;
    std::optional<Confirmation> confirmed;
    static FieldList fields(auto) {
        return {
            field<&ProcessRecord::process>("Your process."),
            field<&ProcessRecord::at_altitude>(
                "What is published for the cellar's altitude, and the steam temperature."),
            field<&ProcessRecord::process_note>(
                "What Barmkeep says about this process wherever its jars are shown. Left out if "
                "its time is not below the shortest published one."),
            field<&ProcessRecord::confirmed>("Who confirmed a time below the shortest published "
                                             "one. Left out if there was nothing to confirm.")};
    }
};

struct ProcessShown : ProcessRecord {
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return joined(ProcessRecord::fields(0),
                      {field<&ProcessShown::cautions>("The cautions that belong to a process.")});
    }
};

/// process.set
struct ProcessSet {
    static constexpr About about{
        "process.set", Access::keep, Effect::writes,
        "Records your own process and its source. It refuses anything but a pressure canner, and "
        "a pressure below the one published for low-acid food at the cellar's altitude. You must "
        "confirm a time below the shortest published for low-acid food in such a jar."};
    struct Params : Process {
        std::optional<std::string> confirm;
        static FieldList fields(auto) {
            return joined(
                Process::fields(0),
                {field<&Params::confirm>(
                     "Name of the process once more. It is needed only if the time is "
                     "below the shortest one published for low-acid food in such a jar; Barmkeep "
                     "refuses such a process if it is left out.")
                     .length(1, 60)});
        }
    };
    using Result = ProcessShown;
};

/// process.list
struct ProcessList {
    static constexpr About about{"process.list", Access::look, Effect::reads,
                                 "Lists your processes."};
    using Params = Nothing;
    struct Result {
        std::vector<ProcessRecord> processes;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::processes>("Your processes, by name."),
                    field<&Result::cautions>("The cautions that belong to a process.")};
        }
    };
};

/// process.reference
struct ProcessReference {
    static constexpr About about{
        "process.reference", Access::look, Effect::reads,
        "Lists published figures, computed figures and common practice, a line each, with their "
        "sources. It lists no process and no process time, because none was tested for wort."};
    using Params = Nothing;
    struct Result {
        std::vector<std::string> lines;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::lines>("The reference lines, with the keys of their sources in "
                                          "brackets."),
                    field<&Result::cautions>("The cautions that belong to a process.")};
        }
    };
};

} // namespace barmkeep::canning
