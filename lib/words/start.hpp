// Start: the phrases of a clinic that describes itself in a file: what was understood, what cannot be taken, what is
// still missing.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// templates
inline constexpr Says<1> template_begins{
    "template-begins",
    "Fill in the rows under the names of columns, in a spreadsheet (saved as CSV, UTF-8) or in any editor, and give "
    "the file to {task}."};
inline constexpr Says<0> template_comments{
    "template-comments",
    "A line that begins with a number sign and a blank is a comment, and is not read. Columns may be left empty or out "
    "where nothing says that they must be stated, and stand in any order."};
inline constexpr Says<0> template_dry{
    "template-dry",
    "Nothing is written before all of the file can be taken; a dry run shows what was understood and writes nothing."};
inline constexpr Says<0> template_units{
    "template-units", "Times: 28 days, 96 h, 30 min. Dates: 2026-11-02. Temperatures: 2C, 36F, or both as 2C/36F."};
inline constexpr Says<2> template_table{"template-table", "{table}: {says}"};
inline constexpr Says<2> template_column{"template-column", "{column}: {says}"};
inline constexpr Says<2> template_needed{"template-needed", "{column} (must be stated): {says}"};
inline constexpr Says<0> template_example{"template-example",
                                          "The first line under the names is an example, invented, and is not read."};
inline constexpr Says<0> template_parts{
    "template-parts", "What each part is goes behind its comma; the line above it is an example, invented."};

// of the file itself
inline constexpr Says<0> start_read_as_latin1{
    "start-read-as-latin1",
    "the file is not UTF-8 and was read as Latin-1: look at names with accents, or save it as UTF-8"};
inline constexpr Says<3> start_mistake_at{"start-mistake-at", "line {line}, {what}: {why}"};
inline constexpr Says<2> start_table_column{"start-table-column", "[{table}], {column}"};
inline constexpr Says<1> start_table{"start-table", "[{table}]"};
inline constexpr Says<2> start_mistakes{
    "start-mistakes",
    "{number} mistake in {file}. NOT WRITTEN: put it right, and give it again|{number} mistakes in {file}. NOT "
    "WRITTEN: put them right, and give it again"};
inline constexpr Says<1> start_mistakes_head{
    "start-mistakes-head", "{number} mistake, and nothing was written:|{number} mistakes, and nothing was written:"};
inline constexpr Says<1> start_not_looked_at{
    "start-not-looked-at",
    "{number} row that names one of these was not looked at.|{number} rows that name one of these were not looked at."};
inline constexpr Says<1> start_nothing{"start-nothing", "{file}: states nothing: no row of a table is filled in"};
inline constexpr Says<1> start_nothing_new{"start-nothing-new",
                                           "{file}: all that it states is in the ledger already. Nothing was written."};

// what was understood
inline constexpr Says<2> start_understood{"start-understood", "{site}: understood from {file}"};
inline constexpr Says<0> title_name{"title-name", "Name"};
inline constexpr Says<0> title_type{"title-type", "Type"};
inline constexpr Says<0> title_range{"title-range", "Range"};
inline constexpr Says<0> title_probe{"title-probe", "Probe"};
inline constexpr Says<0> title_reads_in{"title-reads-in", "Reads in"};
inline constexpr Says<0> title_certificate{"title-certificate", "Certificate through"};
inline constexpr Says<0> title_lots{"title-lots", "Lots"};
inline constexpr Says<0> title_first_expiry{"title-first-expiry", "First expiry"};
inline constexpr Says<0> start_no_fund{"start-no-fund", "none stated"};
inline constexpr Says<0> start_none_here{"start-none-here", "none in this file"};
inline constexpr Says<1> start_made_by{"start-made-by", "maker: {maker}"};
inline constexpr Says<1> start_unchanged{
    "start-unchanged",
    "{number} definition holds so already, and is left as it is.|{number} definitions hold so already, and are left as "
    "they are."};
inline constexpr Says<2> start_lines{"start-lines", "line {lines}: {text}|lines {lines}: {text}"};
inline constexpr Says<0> start_dry_run{"start-dry-run", "Dry run: nothing was written."};
inline constexpr Says<1> start_posted{"start-posted", "Written: {entries}."};
inline constexpr Says<1> start_would_post{"start-would-post",
                                          "It would be {number} entry.|It would be {number} entries."};

// what must be meant
inline constexpr Says<4> start_stock_twice{
    "start-stock-twice",
    "STOCK: {holding} has {before} already, and gets {more} more (line {line}): a delivery adds them, and a file that "
    "is given twice counts them twice"};

inline constexpr Says<3> start_stock_twice_of_many{
    "start-stock-twice-of-many",
    "STOCK: {holdings} have doses already, and get {doses} more (lines {lines}): a delivery adds them, and a file that "
    "is given twice counts them twice"};

// what is still missing
inline constexpr Says<0> start_missing{"start-missing", "Still missing"};
inline constexpr Says<2> start_no_probe_in{
    "start-no-probe-in", "no probe is in {places}: checks by hand are all that would be known ({task})"};
inline constexpr Says<2> start_without_certificate{"start-without-certificate",
                                                   "no certificate is known of {probes} ({task})"};
inline constexpr Says<2> start_without_maker{"start-without-maker",
                                             "nobody is named to ask about {products} ({task})"};
inline constexpr Says<1> start_no_plan{"start-no-plan", "no contingency plan is known ({task} begins one)"};
inline constexpr Says<3> start_plan_lacks{
    "start-plan-lacks",
    "the contingency plan lacks {number} thing: {what} ({task})|the contingency plan lacks {number} things: {what} "
    "({task})"};
inline constexpr Says<2> start_not_trained{"start-not-trained", "no training is known of {people} ({task})"};
inline constexpr Says<1> start_no_rules{
    "start-no-rules",
    "the programme's rules are not known, so nothing says what must be reported, how soon, or how often to look "
    "({task} begins a file of them)"};
inline constexpr Says<2> start_not_read{"start-not-read",
                                        "no temperature is known of {places}: read each now ({task})"};
inline constexpr Says<1> start_more_missing{"start-more-missing", "all of it: {task}"};
inline constexpr Says<2> start_more_of_them{"start-more-of-them", "{what}, and {number} more"};

}  // namespace coldtally::words
