// Messages of the process of record: the brewer's own pressure, time and source.
#pragma once

#include "plugins/canning/cautions.hpp"
#include "sdk/contract/equipment.hpp"

namespace barmkeep::canning {

/// As kept in the cellar.  Every figure is the brewer's; none has a default.
struct Process {
    std::string name;
    std::string jar;
    contract::Gauge gauge = contract::Gauge::dial;
    brewing::GaugePressure pressure;
    Seconds time{};
    std::string source;
    std::optional<std::string> note;
    static FieldList fields(auto) {
        return {
            field<&Process::name>("Its name.").positional().length(1, 60),
            field<&Process::jar>("The jar size it is for.").positional().length(1, 60),
            field<&Process::gauge>("The kind of gauge it is for.").positional(),
            field<&Process::pressure>("The brewer's pressure, as the canner truly has it.")
                .at_most(350),
            field<&Process::time>("The brewer's time at that pressure.").between(60, 6 * 3600),
            field<&Process::source>("Whose process this is: the brewer names it.").length(5, 400),
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
        return {
            field<&AtAltitude::altitude>("The cellar's altitude."),
            field<&AtAltitude::band>(
                "The published gauge pressure for low-acid food there; it is no process."),
            field<&AtAltitude::band_source>("Where it is published."),
            field<&AtAltitude::steam>(
                "Temperature of steam at the brewer's pressure there, all air vented; it is no "
                "proof of a process.")};
    }
};

struct ProcessShown {
    Process process;
    AtAltitude at_altitude;
    std::vector<Caution> cautions;
    static FieldList fields(auto) {
        return {field<&ProcessShown::process>("The brewer's process."),
                          field<&ProcessShown::at_altitude>("What is known of its pressure."),
                          field<&ProcessShown::cautions>("The cautions of canning.")};
    }
};

/// process.set
struct ProcessSet {
    static constexpr About about{
        "process.set", Access::keep, Effect::writes,
        "Records the brewer's own process and its source.  Refused for a boiling-water bath, and "
        "below the pressure published for low-acid food at the cellar's altitude."};
    using Params = Process;
    using Result = ProcessShown;
};

/// process.list
struct ProcessList {
    static constexpr About about{"process.list", Access::look, Effect::reads,
                                 "Lists the brewer's processes."};
    using Params = Nothing;
    struct Result {
        std::vector<Process> processes;
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
        "Tells common practice, unsourced and untested, beside what it really comes to and what "
        "extension services say of untested canning.  No times: there are none to tell."};
    using Params = Nothing;
    struct Result {
        std::vector<Practice> practices;
        std::vector<Caution> cautions;
        static FieldList fields(auto) {
            return {field<&Result::practices>("Rules of thumb, none of them a process."),
                              field<&Result::cautions>("What extension services say.")};
        }
    };
};

} // namespace barmkeep::canning
