// Writes the computed tables into docs/science.md, or checks that they are up to date: the
// deviations of the formulas, and the worked tables of worked_tables.hpp.
//
//     deviation_table docs/science.md            rewrite the tables between their markers
//     deviation_table --check docs/science.md    exit 1 if that would change the file
#include "tests/published/deviations.hpp"
#include "tests/published/worked_tables.hpp"

#include <fmt/format.h>

#include <fstream>
#include <iostream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>

namespace {

using barmkeep::published::Deviation;

void append_rows(std::string& table, const std::vector<Deviation>& deviations) {
    for (const Deviation& one : deviations)
        table += fmt::format("| {} | {} | {} | {} | {:.2g} {} |\n", one.formula, one.source,
                             one.range, one.values, one.worst, one.unit);
}

std::string deviation_table() {
    std::string text = "| formula | compared with | range | values | worst deviation |\n"
                       "|---|---|---|---|---|\n";
    append_rows(text, barmkeep::published::extract_deviations());
    append_rows(text, barmkeep::published::steam_deviations());
    append_rows(text, barmkeep::published::fuel_deviations());
#ifdef BARMKEEP_YEAST_DEVIATIONS
    append_rows(text, barmkeep::published::yeast_deviations());
#endif
    return text;
}

std::string with_table(const std::string& document, const std::string& name,
                       const std::string& table) {
    const std::string begin_marker = "<!-- " + name + ": begin -->\n";
    const std::size_t begin = document.find(begin_marker);
    const std::size_t end = document.find("<!-- " + name + ": end -->");
    if (begin == std::string::npos || end == std::string::npos || end < begin)
        throw std::runtime_error{"the markers of the table '" + name + "' are missing"};
    return document.substr(0, begin + begin_marker.size()) + table + document.substr(end);
}

std::string with_tables(std::string document) {
    using namespace barmkeep::published;
    document = with_table(document, "deviations", deviation_table());
    document = with_table(document, "jar rule", jar_rule_table());
    document = with_table(document, "points", points_table());
    document = with_table(document, "steam", steam_table());
    document = with_table(document, "viability", viability_table());
    document = with_table(document, "pitch", pitch_table());
    return with_table(document, "growth", growth_table());
}

std::string read(const std::string& path) {
    std::ifstream file{path};
    if (!file)
        throw std::runtime_error{path + " cannot be read"};
    return {std::istreambuf_iterator<char>{file}, {}};
}

int run(bool check, const std::string& path) {
    const std::string before = read(path);
    const std::string after = with_tables(before);
    if (before == after)
        return 0;
    if (check) {
        std::cerr << path << " is out of date; run: deviation_table " << path << "\n";
        return 1;
    }
    std::ofstream file{path};
    if (!(file << after).flush())
        throw std::runtime_error{path + " cannot be written"};
    return 0;
}

} // namespace

int main(int argc, char** argv) {
    const bool check = argc == 3 && std::string_view{argv[1]} == "--check";
    if (argc != 2 && !check) {
        std::cerr << "usage: deviation_table [--check] docs/science.md\n";
        return 2;
    }
    try {
        return run(check, argv[argc - 1]);
    } catch (const std::exception& error) {
        std::cerr << "deviation_table: " << error.what() << "\n";
        return 2;
    }
}
