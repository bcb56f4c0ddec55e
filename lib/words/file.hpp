// File: the phrases of a check of the whole file, of copies, and of what was read into it.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// the schema
inline constexpr Says<2> schema_has{"schema-has", "the schema has a {type} {name} that is not of the format"};
inline constexpr Says<2> schema_differs{"schema-differs", "the schema's {type} {name} is not that of the format"};
inline constexpr Says<1> schema_lacks{"schema-lacks", "the schema lacks {name} of the format"};

// what a check of the file found
inline constexpr Says<1> file_finding{"file-finding", "file: {what}"};
inline constexpr Says<1> findings_more{"findings-more", "and {number} more"};
inline constexpr Says<1> entry_missing{"entry-missing", "entry {entry}: missing"};
inline constexpr Says<2> entries_missing{"entries-missing", "entries {first} to {last}: missing"};
inline constexpr Says<1> recorded_before{"recorded-before", "entry {entry}: recorded before the entry before it"};
inline constexpr Says<2> entry_altered{"entry-altered",
                                       "entry {entry}: altered: it is not what was posted after entry {before}"};
inline constexpr Says<1> entry_row_altered{
    "entry-row-altered", "entry {entry}: altered: its kind or instant of recording is not that of its text"};
inline constexpr Says<0> tip_missing{"tip-missing", "tip: the last link is missing"};
inline constexpr Says<1> tip_names{"tip-names", "tip: names entry {entry} as the last"};
inline constexpr Says<1> tip_of_another{"tip-of-another", "tip: the last link is not that of entry {entry}"};
inline constexpr Says<1> noted_not_there{
    "noted-not-there", "noted: entry {entry} was there when its link was noted, and is not there"};
inline constexpr Says<3> noted_other_link{
    "noted-other-link",
    "noted: entry {entry} had the link {noted} and has {link}: the ledger up to there is not the one that was noted"};
inline constexpr Says<2> block_of_entry{"block-of-entry", "entry {entry}: block {block} of its readings"};
inline constexpr Says<1> block_out_of_order{"block-out-of-order", "{block}: is not the one that follows"};
inline constexpr Says<1> block_of_another{"block-of-another", "{block}: names another entry"};
inline constexpr Says<1> block_altered{"block-altered", "{block} is altered"};
inline constexpr Says<1> block_not_decoded{"block-not-decoded", "{block} cannot be decoded"};
inline constexpr Says<1> block_of_no_entry{"block-of-no-entry", "block {block} of readings belongs to no entry"};
inline constexpr Says<1> readings_missing{"readings-missing", "entry {entry}: its readings are missing"};
inline constexpr Says<1> counts_where_none{"counts-where-none", "counts {doses} where there are none then"};
inline constexpr Says<2> takes_more{"takes-more", "takes {doses} where there are {there} then"};
inline constexpr Says<2> row_not_of_entries{"row-not-of-entries", "{table}: {row}: is not what the entries say"};
inline constexpr Says<2> row_not_there{"row-not-there",
                                       "{table}: {row}: is what the entries say, and is not there"};

// the check, and copies, in lines
inline constexpr Says<0> as_posted{"as-posted", "The ledger is as it was posted."};
inline constexpr Says<1> not_as_posted{"not-as-posted", "NOT AS IT WAS POSTED: {findings}"};
inline constexpr Says<1> list_item{"list-item", "- {text}"};
inline constexpr Says<2> entries_readings{"entries-readings", "Entries {entries}, readings {readings}."};
inline constexpr Says<1> chain_is{"chain-is", "Chain {chain}"};
inline constexpr Says<2> write_down_link{"write-down-link",
                                         "Write down on paper: {link}. Later, `{task}` with these words shows whether "
                                         "the whole file was replaced."};
inline constexpr Says<1> copy_made{"copy-made", "{path}: made, and it verifies."};
inline constexpr Says<1> copy_of_older{
    "copy-of-older",
    "From a ledger of format {format}, which stays as it is; entries and chain are the same."};

inline constexpr Says<4> copy_not_made{
    "copy-not-made",
    "{ledger}: is not as it was posted, and no copy was made: {finding} ({number} findings; `{task}` lists them)"};
inline constexpr Says<4> older_format{
    "older-format",
    "{ledger}: a ledger of format {format}; this program reads format {reads}: `{task}` makes a copy of it in that "
    "format, with the same entries and chain"};

inline constexpr Says<3> file_damaged{
    "file-damaged",
    "{ledger}: {what}; keep this file, and the -journal beside it where there is one, as they are, and put a copy that "
    "verifies in another place with `{task}`"};
inline constexpr Says<1> schema_changed{"schema-changed", "{finding}: the file was changed by other means"};
inline constexpr Says<2> schema_changed_more{
    "schema-changed-more", "{finding} (and {number} more): the file was changed by other means"};
inline constexpr Says<3> no_such_ledger{
    "no-such-ledger",
    "{ledger}: no such ledger; `{site}` makes one, or `{post}` from entries that begin with a site"};
inline constexpr Says<2> rows_contradict{
    "rows-contradict", "{ledger}: rows of the ledger contradict each other: `{task}` says which"};

// what was read in
inline constexpr Says<0> same_file_known{"same-file-known",
                                         "the same file is in the ledger already; nothing was added"};
inline constexpr Says<2> new_of{"new-of", "{number} new of {readings}"};
inline constexpr Says<1> sha_256{"sha-256", "SHA-256 {digest}"};
inline constexpr Says<3> readings_from_to{"readings-from-to", "Readings from {from} to {until} ({zone})"};
inline constexpr Says<2> longest_step{"longest-step", "{readings}, longest step {time}"};
inline constexpr Says<5> rows_read{
    "rows-read",
    "Rows: {read} read, {kept} new, {repeated} repeated, 0 refused, {without} without a reading, {ignored} ignored"};
inline constexpr Says<2> rounded_to{"rounded-to", "Rounded to {resolution} degrees: {readings}"};
inline constexpr Says<2> rounded_by_at_most{"rounded-by-at-most", "{rounded}, by at most {change}"};
inline constexpr Says<1> rounding_may_decide{
    "rounding-may-decide",
    "{rounded}; of readings beside a limit, rounding may decide on which side they are"};
inline constexpr Says<1> guessed{"guessed", "Guessed: {what}"};
inline constexpr Says<1> could_be_otherwise{"could-be-otherwise", "COULD BE OTHERWISE: {what}"};
inline constexpr Says<1> remark{"remark", "Remark: {what}"};
inline constexpr Says<1> posted_as{"posted-as", "Posted as {entries}"};
inline constexpr Says<1> would_be_posted_as{"would-be-posted-as", "Would be posted as {entries}"};
inline constexpr Says<0> nothing_posted{"nothing-posted", "Nothing was posted."};

}  // namespace coldtally::words
