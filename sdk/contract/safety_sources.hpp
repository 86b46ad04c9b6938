// The published sources of every safety text, by the keys that stand in brackets behind it.
//
// A brewer reads the keys; `barm canning cautions` and docs/safety.md list their titles.
#pragma once

#include <array>
#include <string_view>

namespace barmkeep::contract {

struct SourceTitle {
    std::string_view key;
    std::string_view title;
};

// NOLINTBEGIN(bugprone-suspicious-missing-comma): titles that span lines
inline constexpr std::array safety_sources{
    SourceTitle{"S1",
                "USDA, Complete Guide to Home Canning, AIB 539, rev. 1994, Guide 5, Meat Stock "
                "(Broth), Tables 1 and 2 (p. 5-7 in later editions)"},
    SourceTitle{"S2", "Michigan State University Extension, Preserving Food Safely 01600478, 1997"},
    SourceTitle{"S3",
                "PNW 421, Using and Caring for Your Pressure Canner (Univ. Idaho, Oregon State, "
                "Washington State), pp. 4-11"},
    SourceTitle{"S4", "Jar maker mini guide (US canning), p. 20 altitude charts"},
    SourceTitle{"S6", "USDA Complete Guide, AIB 539, rev. 1994, front matter, Caution"},
    SourceTitle{"S9", "Virginia Cooperative Extension 348-585 (FST-222), Pressure Canning"},
    SourceTitle{"S10", "Codex CAC/RCP 23-1979, Section II, 2.1 and 2.2"},
    SourceTitle{"S11",
                "Canadian Food Inspection Agency, Fish manual ch. 13 subj. 1, Thermal Process "
                "Control Policy, definitions"},
    SourceTitle{"S13", "NDSU Extension, Play it Safe: Changes and Substitutions"},
    SourceTitle{"S14",
                "MSU Extension, Preserving Food Safely 01600949 (USDA 1994 text, Using Pressure "
                "Canners)"},
    SourceTitle{"S15", "MSU Extension HNI97, Michigan Fresh: Pressure Canning Basics"},
    SourceTitle{"S16", "Household pressure canner maker manuals (two), operating steps"},
    SourceTitle{"S17", "as S14, steps 6 and 7"},
    SourceTitle{"S18", "NCHFP slide set Pressure Canning, slide 31, as quoted"},
    SourceTitle{"S19", "Univ. Minnesota Extension, Canning Basics 8, reviewed 2012"},
    SourceTitle{"S20", "MSU Extension, Preserving Food Safely 01600593, 1997"},
    SourceTitle{"S21", "Kansas State Extension, You Asked It (from NCHFP)"},
    SourceTitle{"S22", "USDA Complete Guide rev. 2009, Controlling headspace, as reproduced"},
    SourceTitle{"S23", "UC ANR Master Food Preservers Orange County, Canning"},
    SourceTitle{"S24", "USDA Complete Guide rev. 1994, Storing Canned Foods"},
    SourceTitle{"S25",
                "Consumer advice dated 21 Aug 2013, issuer not shown in the excerpt, use within "
                "one year"},
    SourceTitle{"S29", "Iowa State Univ. Extension, Greene County, dial gauges"},
    SourceTitle{"S30", "Iowa State AnswerLine, 21 May 2024; PNW 421"},
    SourceTitle{"S34", "NCHFP, Selecting the Correct Processing Time"},
    SourceTitle{"S35", "NCHFP blog, Jar Size Choices"},
    SourceTitle{"S36",
                "USDA Complete Guide rev. 1994, Identifying and Handling Spoiled Canned Food"},
    SourceTitle{"S37", "Univ. Georgia, So Easy to Preserve, spoilage section"},
    SourceTitle{"S38", "MSU Extension, Is it safe to guess on a processing time"},
    SourceTitle{"S39", "Penn State Extension, Use Tested Recipes to Preserve Foods"},
    SourceTitle{"S74",
                "Univ. Nebraska-Lincoln Extension, Saving Home Canned Food: Jars That Did Not "
                "Seal (year not shown)"},
    SourceTitle{"S75", "Univ. Missouri Extension, MissouriFamilies QA FS176, reprocessing "
                       "after wrong processing or failed seal, 5 May 2009"},
    SourceTitle{"S76", "Univ. Missouri Extension, MissouriFamilies QA FS92, loss of liquid,"
                       " 5 May 2009"},
    SourceTitle{"S77", "Univ. Missouri Extension, MissouriFamilies QA FS157, disposal of "
                       "spoiled food, 5 May 2009"},
    SourceTitle{"S78",
                "Univ. Missouri Extension, MissouriFamilies QA FS54 (from Penn State workshop "
                "1987), cooling a canner with water, 5 May 2009"},
    SourceTitle{"S79",
                "US CDC, Home-Canned Foods: Protect Yourself from Botulism, reposted in full "
                "(date of the CDC page not shown)"},
    SourceTitle{"S82",
                "Monterey County Health Department (California), Botulism, 21 Nov 2016, modified "
                "25 Nov 2019"},
    SourceTitle{"S83",
                "Colorado State University Extension, Preserve Smart, Why elevation matters (year"
                " not shown)"},
    SourceTitle{"S84",
                "Iowa State Univ. Extension, Cerro Gordo County, Beat Botulism with Safe Home "
                "Food Preservation (year not shown)"},
    SourceTitle{"S85",
                "Oregon State Univ. Extension volunteers quoted in the Mail Tribune, 3 Oct 2012"},
    SourceTitle{"S86",
                "Oregon State Univ. Extension Master Food Preservers (Douglas County), newspaper "
                "column on pressure canner care (year not shown)"},
    SourceTitle{"S87", "North Carolina State Univ., Aug 2004, interrupted canning "
                       "process"},
    SourceTitle{"S89",
                "Kansas State Univ. Extension, You Asked It, 19 Apr 2022 (venting; cites NCHFP "
                "and USDA Complete Guide)"},
    SourceTitle{"S90",
                "Kansas State Univ. Extension, You Asked It, 14 Jul 2020 (liquid loss; cites "
                "NCHFP and a canner maker)"},
    SourceTitle{"S91",
                "NCHFP on lost liquid, as quoted by Univ. Nebraska-Lincoln Food Safety in a local"
                " news item (year not shown)"},
    SourceTitle{"S92",
                "Penn State Extension, Canning With Half Gallon Jars (year not shown); Iowa State"
                " AnswerLine, 18 Jul 2019"},
    SourceTitle{"S94",
                "NCHFP, Burning Issue: Canning in Electric Multi-Cookers, carried by Univ. "
                "Wisconsin Extension Richland County, 25 Jul 2016; NDSU Extension Morton County, "
                "8 Oct 2018"},
    SourceTitle{"S95",
                "NCHFP, Burning Issue: Using Atmospheric Steam Canners (research Univ. Wisconsin, "
                "2015)"},
    SourceTitle{"S96",
                "Kansas State Univ. Extension Post Rock District, Say No to Open Kettle and Oven "
                "Canning, 29 Sep 2017"},
    SourceTitle{"S97",
                "MSU Extension, Preserving Food Safely 01600948, 1997 (canner types and times)"},
    SourceTitle{"S98", "Clemson Univ. HGIC, Pressure Cooker vs. Pressure Canner, 2010"},
    SourceTitle{"S99", "MSU Extension, Pressure cookers versus pressure canners (year not shown)"},
    SourceTitle{"S102",
                "Food safety FAQ of southern US universities, storing home-canned food (year not "
                "shown)"},
    SourceTitle{"S103",
                "US FDA CFSAN, Bad Bug Book, Factors Affecting the Growth of Some Foodborne "
                "Pathogens, Jan 1992 (archived)"},
    SourceTitle{"S107",
                "New York State Dept. of Agriculture and Markets, Water Activity, principal "
                "groups of foods (year not shown)"},
    SourceTitle{"S110",
                "MSU Extension, Preserving Food Safely 01600950 (USDA 1994 text, cooling jars)"},
    SourceTitle{"S111",
                "Kansas State Univ. Extension Meade County, When to Remove Jars from Canners "
                "(from Penn State; year not shown)"},
    SourceTitle{"S112",
                "USDA AIB 410, Canning, Freezing, Storing Garden Produce, 1977, after canning and"
                " questions"},
};
// NOLINTEND(bugprone-suspicious-missing-comma)

} // namespace barmkeep::contract
