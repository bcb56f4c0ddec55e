// The face: opens the file, hands each call to the step that does it, inside one transaction.
#include "coldtally/ledger.hpp"

#include <algorithm>
#include <filesystem>
#include <future>
#include <memory>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <variant>

#include "coldtally/forms.hpp"
#include "drafts/answer_draft.hpp"
#include "drafts/arrivals.hpp"
#include "drafts/changes.hpp"
#include "drafts/draft.hpp"
#include "drafts/follow_up_draft.hpp"
#include "drafts/give_records.hpp"
#include "drafts/late_correction.hpp"
#include "drafts/loosening.hpp"
#include "drafts/pack.hpp"
#include "drafts/post_warnings.hpp"
#include "entries/fields.hpp"
#include "entries/made.hpp"
#include "entries/parse.hpp"
#include "ledger/cores.hpp"
#include "ledger/new_file.hpp"
#include "ledger/posting.hpp"
#include "ledger/verify.hpp"
#include "logger/lines.hpp"
#include "logger/reader.hpp"
#include "logger/unreadable.hpp"
#include "question/sheet_scale.hpp"
#include "start/draft_rows.hpp"
#include "stock/handover.hpp"
#include "stock/journeys.hpp"
#include "text/limits.hpp"
#include "trace/assignment.hpp"
#include "view_impl.hpp"
#include "words/definitions.hpp"
#include "words/drafts.hpp"
#include "words/lists.hpp"
#include "words/logger.hpp"

namespace coldtally {

using ledger::Posting;
using ledger::Store;
using ledger::Transaction;

struct Ledger::Impl {
    std::string path;
    Mode mode;
    int wait_ms;
    std::optional<Store> store;  // none: to be created by the first post

    /// Runs a writing step in a transaction of its own; commits unless it throws or `dry_run`.
    template <class Step>
    void write(bool dry_run, Step step) {
        if (!views.expired())
            throw Error(Code::contradiction,
                        ledger::shown_path(path) + ": a view of it is open: let it go before anything is posted");
        sound(path, [&] { write_step(dry_run, step); });
    }

    template <class Step>
    void write_step(bool dry_run, Step step) {
        if (mode == Mode::read) throw Error(Code::machine, ledger::shown_path(path) + ": opened for reading only");
        if (store) {
            Transaction t(store->database(), Transaction::Kind::write);
            step(*store);
            if (!dry_run) t.commit();
            return;
        }
        // A new ledger is filled beside its place and then put there whole: no half of one is ever seen.
        ledger::NewFile beside(path);
        {
            Store fresh = Store::create(beside.name(), wait_ms);
            fresh.database().say(path);
            Transaction t(fresh.database(), Transaction::Kind::write);
            step(fresh);
            if (!dry_run) t.commit();
        }
        if (dry_run) return;
        beside.publish();
        store.emplace(Store::open(path, true, wait_ms));
    }

    /// The transaction of the views there are, or one of its own: whatever is read meanwhile is of one instant.
    std::shared_ptr<Transaction> reading() const {
        auto open = views.lock();
        if (!open) views = open = std::make_shared<Transaction>(opened().database(), Transaction::Kind::read);
        return open;
    }
    mutable std::weak_ptr<Transaction> views;

    /// Runs a step in a transaction that only reads.
    template <class Step>
    auto look(Step step) const {
        return coldtally::sound(path, [&] {
            const auto open = reading();
            return step(opened());
        });
    }

    /// What entries say never changes: kept from one question to the next.
    std::shared_ptr<const ledger::Known> known_up_to(EntryNumber entry) const {
        if (!kept_known || kept_known->upto != entry)
            kept_known = std::make_shared<const ledger::Known>(ledger::Known::load(opened(), entry));
        return kept_known;
    }
    mutable std::shared_ptr<const ledger::Known> kept_known;

    const Store& opened() const {
        if (!store)
            throw Error(Code::ledger_missing,
                        ledger::shown_path(path) + ": no such ledger; a post that begins with a site entry makes it");
        return *store;
    }
};

Ledger::Ledger(const std::string& path, Mode mode, Duration wait) : impl_(std::make_unique<Impl>()) {
    impl_->path = path;
    impl_->mode = mode;
    impl_->wait_ms = static_cast<int>(std::clamp<std::int64_t>(wait.seconds(), 0, 86400) * 1000);
    std::error_code unknown;  // the opening says better what it is
    if (mode == Mode::create && !std::filesystem::exists(path, unknown) && !unknown) return;
    impl_->store.emplace(Store::open(path, mode != Mode::read, impl_->wait_ms));
}

Ledger::~Ledger() = default;
Ledger::Ledger(Ledger&&) noexcept = default;
Ledger& Ledger::operator=(Ledger&&) noexcept = default;

const std::string& Ledger::path() const noexcept { return impl_->path; }

// ---- posting

namespace {

std::optional<Loosening> loosening_since(const Store& store, EntryNumber last_before,
                                         const std::vector<answers::Brief>& briefs, Instant now);

/// Posts what `next` hands out, one after the other; `next` is given the zone and returns false at the end.
template <class Next>
std::vector<EntryNumber> post_all(Posting& posting, std::optional<Instant> recorded, Next next,
                                  answers::PostWarnings* warner = nullptr) {
    std::vector<EntryNumber> out;
    Entry entry;
    std::string where;
    while (next(posting.zone(), entry, where)) {
        if (recorded) {
            entry.number = posting.last_entry() + 1;
            entry.recorded = recorded;
        }
        if constexpr (requires { next.line(); })
            if (warner) warner->add(entry, next.line());
        posting.post(entry, where);
        out.push_back(entry.number);
    }
    return out;
}

/// The entries of a JSON Lines text.
class LinesOf {
public:
    LinesOf(std::string_view text, entries::Form form) : lines_(text::lines_of(checked(text))), form_(form) {
        if (lines_.empty()) throw Error(Code::bad_text, "no entries: must be JSON Lines, one entry a line");
    }
    bool operator()(const Zone* zone, Entry& entry, std::string& where) {
        if (next_ == lines_.size()) return false;
        const auto& line = lines_[next_++];
        line_ = static_cast<std::int64_t>(line.number);
        where = "line " + std::to_string(line.number);
        entry = entries::parse_entry(text::parse_json(line.text, where), zone, where, form_);
        return true;
    }
    /// Of the entry that was handed out last.
    std::int64_t line() const { return line_; }

private:
    static std::string_view checked(std::string_view text) {
        if (text.size() > limits::post_bytes) throw Error(Code::bad_text, "longer than 4 GiB; post it in parts");
        return text;
    }
    std::vector<text::Line> lines_;
    entries::Form form_;
    std::size_t next_ = 0;
    std::int64_t line_ = 0;
};

/// Not before the last entry: a clock that was set back must not stop the work.
/// One that shows a year in which nothing can be recorded is no clock that was set back: Code::bad_value.
Instant recorded_at(const Posting& posting, Instant now) {
    ledger::check_clock(now, "now");
    return posting.last_recorded() ? std::max(now, *posting.last_recorded()) : now;
}

}  // namespace

std::vector<EntryNumber> Ledger::post(std::string_view json_lines, Instant now, bool dry_run,
                                      std::vector<Remark>* warnings) {
    std::vector<EntryNumber> out;
    std::vector<Remark> said;
    LinesOf lines(json_lines, entries::Form::posted);
    impl_->write(dry_run, [&](Store& store) {
        Posting posting(store);
        answers::PostWarnings warner(store, posting.known());
        const EntryNumber last_before = posting.last_entry();
        out = post_all(posting, recorded_at(posting, now), lines, warnings ? &warner : nullptr);
        if (!warnings) return;
        said = warner.at_the_end();
        if (const auto found = loosening_since(store, last_before, warner.briefs(), now))
            for (const auto* all : {&found->asks, &found->says})
                for (const auto& one : *all) said.push_back(words::with_these_entries(one));
    });
    if (warnings) warnings->insert(warnings->end(), said.begin(), said.end());
    return out;
}

namespace {

std::vector<EntryNumber> post_entries(Store& store, std::vector<Entry>& all, Instant now) {
    Posting posting(store);
    std::size_t i = 0;
    return post_all(posting, recorded_at(posting, now), [&](const Zone* zone, Entry& entry, std::string& where) {
        if (i == all.size()) return false;
        where = "entry " + std::to_string(i + 1) + " of " + std::to_string(all.size());
        all[i].number = 0;
        all[i].recorded.reset();
        if (zone != nullptr && entries::has_rows(all[i])) {
            entries::check_made(all[i], where);
            entry = std::move(all[i]);
        } else {  // through its JSON form, so that every rule of the form holds for it
            entry = entries::parse_entry(text::parse_json(to_json(all[i]), where), zone, where, entries::Form::posted);
        }
        ++i;
        return true;
    });
}

}  // namespace

void Ledger::post(Drafted& drafted, Instant now, bool dry_run) {
    const auto numbers = post(drafted.entries, now, dry_run);
    for (std::size_t i = 0; i < numbers.size(); ++i) drafted.entries[i].number = numbers[i];
}

std::vector<EntryNumber> Ledger::post(std::vector<Entry> all, Instant now, bool dry_run) {
    std::vector<EntryNumber> out;
    impl_->write(dry_run, [&](Store& store) { out = post_entries(store, all, now); });
    return out;
}

namespace {

/// An entry that names another by its number alone: which that is, and what that names.
void say_what_it_names(const Store& store, const Entry& entry, const Zone& zone, std::vector<Remark>& said) {
    EntryNumber named = 0;
    if (const auto* undo = std::get_if<Void>(&entry.fact)) named = undo->voids;
    if (const auto* loan = std::get_if<Loan>(&entry.fact)) named = loan->give;
    if (const auto* repayment = std::get_if<Repayment>(&entry.fact)) named = repayment->loan;
    auto other = named > 0 ? store.entry(named, false) : std::nullopt;
    if (!other) return;  // is refused when it is posted
    if (entries::has_rows(*other)) other = store.entry(named, true);  // how many there are is what is said of them
    said.push_back(words::colon(words::entry(named), entry_words(*other, zone)));
    if (!std::holds_alternative<Void>(other->fact)) say_what_it_names(store, *other, zone, said);
}

}  // namespace

Drafted Ledger::draft(std::string_view json, Instant now) const {
    if (!impl_->store) return answers::draft(nullptr, json, now);
    const Zone site_zone = zone();
    return impl_->look([&](const Store& store) {
        Drafted out = answers::draft(&store, json, now);
        for (const auto& entry : out.entries) say_what_it_names(store, entry, site_zone, out.filled);
        return out;
    });
}

StartDraft Ledger::start_draft(const StartRequest& request, Instant now) {
    entries::check_id(request.by, "by", false, true);
    ledger::check_clock(now, "now");
    std::optional<Zone> known;
    if (impl_->store) known = zone();
    start::Description description = start::describe(request, known, now);
    StartDraft out;
    impl_->write(true, [&](Store& store) { out = start::draft_rows(store, std::move(description), request, now); });
    return out;
}

Drafted Ledger::pack(const PackRequest& request, Instant now) const {
    return impl_->look([&](const Store& store) { return answers::pack(store, request, now); });
}

Drafted Ledger::unpack(const UnpackRequest& request, Instant now) const {
    return impl_->look([&](const Store& store) { return answers::unpack(store, request, now); });
}

std::optional<LateCorrection> Ledger::late_correction(const Drafted& drafted, Instant now) const {
    if (drafted.entries.size() != 1 || !impl_->store) return std::nullopt;
    return impl_->look([&](const Store& store) {
        const AnswerHead head = answers::head_of(store, Question{}, now);
        const auto known = impl_->known_up_to(head.last_entry);
        answers::World world(store, head, *known);
        return answers::late_correction(world, drafted.entries.front());
    });
}

Changes Ledger::changes(std::vector<Entry> all, Instant now) {
    Changes out;
    impl_->opened();
    impl_->write(true, [&](Store& store) {
        const auto state = [&] {
            const AnswerHead head = answers::head_of(store, Question{}, now);
            const auto known = ledger::Known::load(store, head.last_entry);
            answers::World world(store, head, known);
            return answers::snapshot(world, all);
        };
        const auto before = state();
        post_entries(store, all, now);
        out = answers::changes(before, state());
    });
    return out;
}

namespace {

/// What was posted since `first` loosens, as known at the end: of a batch that is there already, since every question
/// can be asked without it.
std::optional<Loosening> loosening_since(const Store& store, EntryNumber last_before,
                                         const std::vector<answers::Brief>& briefs, Instant now) {
    if (last_before == 0 || briefs.empty()) return std::nullopt;
    const AnswerHead head = answers::head_of(store, Question{}, now);
    AnswerHead without = head;
    without.last_entry = last_before;
    const auto known_before = ledger::Known::load(store, last_before);
    answers::World before(store, without, known_before);
    const answers::Touched touched(before, briefs);
    const auto known = ledger::Known::load(store, head.last_entry);
    answers::World after(store, head, known);
    if (!touched.may_loosen() && !touched.may_worsen(after)) return std::nullopt;
    Loosening out =
        answers::loosening(after, touched, answers::look(before, touched, {}), answers::look(after, touched, {}));
    if (!touched.may_loosen()) {  // what can only show something worse is never kept out
        out.says.insert(out.says.begin(), out.asks.begin(), out.asks.end());
        out.asks.clear();
    }
    return out;
}

}  // namespace

std::optional<Loosening> Ledger::loosening(std::vector<Entry> all, Instant now) {
    std::optional<Loosening> out;
    impl_->opened();
    std::vector<answers::Brief> briefs;
    for (const Entry& e : all) briefs.push_back(answers::brief(e));
    impl_->write(true, [&](Store& store) {
        const auto world_of = [&](auto step) {
            const AnswerHead head = answers::head_of(store, Question{}, now);
            const auto known = ledger::Known::load(store, head.last_entry);
            answers::World world(store, head, known);
            return step(world);
        };
        std::optional<answers::Touched> touched;
        const auto before = world_of([&](answers::World& w) {
            touched.emplace(w, briefs);
            return touched->may_loosen() ? std::optional(answers::look(w, *touched, all)) : std::nullopt;
        });
        if (!before) return;
        post_entries(store, all, now);
        world_of([&](answers::World& w) {
            out = answers::loosening(w, *touched, *before, answers::look(w, *touched, all));
        });
    });
    return out;
}

std::vector<Remark> Ledger::arrivals(std::vector<Entry> all, const std::vector<Remark>& said, Instant now) {
    std::vector<Remark> out;
    const auto come = answers::arrivals(all, now);
    if (come.empty()) return out;
    impl_->opened();
    impl_->write(true, [&](Store& store) {
        const auto world_of = [&](auto step) {
            const AnswerHead head = answers::head_of(store, Question{}, now);
            const auto known = ledger::Known::load(store, head.last_entry);
            answers::World world(store, head, known);
            return step(world);
        };
        const auto before = world_of([&](answers::World& w) { return answers::lists_of(w, come); });
        post_entries(store, all, now);
        out = world_of([&](answers::World& w) { return answers::must_not_be_used(w, come, before, said); });
    });
    return out;
}

MoveListAnswer Ledger::move_list_after(std::vector<Entry> all, const std::string& place, Instant at, Instant now) {
    MoveListAnswer out;
    impl_->opened();
    impl_->write(true, [&](Store& store) {
        post_entries(store, all, now);
        const AnswerHead head = answers::head_of(store, Question{at, std::nullopt}, now);
        const auto known = ledger::Known::load(store, head.last_entry);
        answers::World world(store, head, known);
        out = answers::move_list(world, place, std::nullopt);
    });
    return out;
}

HandoverAnswer Ledger::handover_after(std::vector<Entry> all, Instant now) {
    HandoverAnswer out;
    impl_->opened();
    impl_->write(true, [&](Store& store) {
        const auto numbers = post_entries(store, all, now);
        const AnswerHead head = answers::head_of(store, Question{}, now);
        const auto known = ledger::Known::load(store, head.last_entry);
        answers::World world(store, head, known);
        out = answers::handover(world, numbers.back());
    });
    return out;
}

std::vector<EntryNumber> Ledger::replay(std::string_view json_lines) {
    if (impl_->mode != Mode::create || impl_->store)
        throw Error(Code::ledger_exists, ledger::shown_path(impl_->path) +
                                             ": a replay makes a new ledger; there is a file of this name already");
    std::vector<EntryNumber> out;
    LinesOf lines(json_lines, entries::Form::exported);
    impl_->write(false, [&](Store& store) {
        Posting posting(store);
        out = post_all(posting, std::nullopt, lines);
    });
    return out;
}

void Ledger::for_each_entry(const std::function<void(const Entry&)>& take) const {
    // What is posted never changes: no transaction stands open while `take` waits for whoever reads, and no post waits
    // for them.
    const EntryNumber last = impl_->look([](const Store& store) { return store.tip().entry; });
    constexpr std::size_t most_entries = 256, most_rows = 100'000;
    for (EntryNumber n = 1; n <= last;) {
        const auto some = impl_->look([&](const Store& store) {
            std::vector<Entry> out;
            for (std::size_t rows = 0; n <= last && out.size() < most_entries && rows < most_rows; ++n) {
                auto e = store.entry(n);
                if (!e) store.database().damaged("entry " + std::to_string(n) + " is missing");
                if (const auto* r = std::get_if<Readings>(&e->fact)) rows += r->rows.size();
                out.push_back(std::move(*e));
            }
            return out;
        });
        for (const Entry& e : some) take(e);
    }
}

// ---- logger files

namespace {

std::string hash_of(const LoggerFile& file) {
    if (!file.read) return ledger::hexadecimal(ledger::sha256(file.content));
    std::string piece(1u << 20, '\0');
    std::uint64_t at = 0;
    return ledger::hexadecimal(ledger::sha256_of([&] {
        const std::size_t n = file.read(at, piece.data(), piece.size());
        at += n;
        return std::string_view(piece).substr(0, n);
    }));
}

/// A file whose `read` two threads may ask: they are let in one after the other.
LoggerFile in_turns(const LoggerFile& file) {
    const auto turn = std::make_shared<std::mutex>();
    return {file.name, {}, [turn, read = file.read](std::uint64_t at, char* into, std::size_t size) {
                const std::lock_guard<std::mutex> mine(*turn);
                return read(at, into, size);
            },
            file.size};
}

/// So large a file is read while it is hashed (benchmark import: a fifth of the time on two cores).
constexpr std::uint64_t worth_a_thread = 1u << 20;

/// Readings of a time in which the probe was in no place are kept, and are no place's: whoever forgot to say where it
/// was must hear it.
void remark_without_place(const ledger::Known& known, const std::string& probe, logger::ReadFile& read) {
    // both ascend; at each instant it is in one place at most
    std::ptrdiff_t count = std::ssize(read.rows);
    const auto rows_before = [&](std::int64_t at) {
        return std::partition_point(read.rows.begin(), read.rows.end(),
                                    [&](const Reading& r) { return r.at.seconds_since_1970() < at; });
    };
    for (const auto& a : trace::assignments(known))
        if (a.probe == probe) count -= std::max<std::ptrdiff_t>(0, rows_before(a.until) - rows_before(a.from));
    if (count > 0)
        read.report.remarks.push_back(words::readings_of_no_place(count, read.rows.size(), text::quoted(probe)));
}

/// Posts what is new of a file's rows, up to limits::rows_of_entry an entry.
void post_rows(Store& store, Posting& posting, const ImportRequest& request, const Probe& probe, logger::ReadFile& read,
               Instant recorded) {
    auto& report = read.report;
    Entry e;
    e.recorded = recorded;
    e.by = request.by;
    e.note = request.note;
    e.fact = Readings{
        request.probe, probe.scale, {}, Readings::Source{report.name, report.sha256, report.layout.resolution}};
    auto& fresh = std::get<Readings>(e.fact).rows;
    const auto post = [&] {
        if (fresh.empty()) return;
        e.number = posting.last_entry() + 1;
        posting.post(e, report.name);
        report.entries.push_back(e.number);
        fresh.clear();
    };
    ledger::ReadingsBetween there(store, posting.known(), request.probe, read.rows.front().at.seconds_since_1970(),
                                  read.rows.back().at.seconds_since_1970());
    const auto* old = there.next();
    report.rows_kept = 0;
    for (const Reading& r : read.rows) {
        while (old && old->first.at < r.at) old = there.next();
        if (old && old->first == r) {
            ++report.rows_repeated;
            continue;
        }
        fresh.push_back(r);  // an unequal one is refused by the posting, with the entry it disagrees with
        ++report.rows_kept;
        if (fresh.size() == limits::rows_of_entry) post();
    }
    post();
}

}  // namespace

ImportReport Ledger::import_readings(const ImportRequest& request, const std::vector<LoggerFile>& files, Instant now,
                                     bool dry_run) {
    if (files.empty()) throw Error(Code::bad_value, "files: none: must be at least one file of a logger");
    auto next = files.begin();
    return import_readings(
        request,
        [&]() -> std::optional<LoggerFile> { return next == files.end() ? std::nullopt : std::optional(*next++); }, now,
        dry_run);
}

ImportReport Ledger::import_readings(const ImportRequest& request,
                                     const std::function<std::optional<LoggerFile>()>& next, Instant now,
                                     bool dry_run) {
    ImportReport out;
    entries::check_id(request.by, "by", false, true);
    impl_->opened();
    impl_->write(dry_run, [&](Store& store) {
        Posting posting(store);
        const Instant recorded = recorded_at(posting, now);
        const Probe* probe = posting.known().probe(request.probe);
        if (!probe)
            throw Error(Code::not_defined, "probe: " + text::quoted(request.probe) +
                                               ": no probe of this id is defined; post its definition first");
        const EntryNumber last_before = posting.last_entry();
        std::vector<answers::Brief> briefs;
        std::vector<LoggerRefusal> unreadable;
        int count = 0;
        while (auto next_file = next()) {
            LoggerFile file = std::move(*next_file);
            if (file.read) file = in_turns(file);
            if (++count > 1 && !request.layout.clocks.empty())
                throw Error(
                    Code::contradiction,
                    file.name +
                        ": layout: clocks: name lines of one file; import each file whose clock was set by itself");
            logger::check_size(file);
            // whatever becomes of it: a file that is there already may be read in vain
            const bool large = logger::size_of(file) >= worth_a_thread;
            auto reading = std::async(ledger::beside(large), [&, zone = *posting.zone()] {
                return logger::read_logger_file(file, request.layout, zone, probe->scale, request.accept_guesses);
            });
            const std::string hash = hash_of(file);
            // a file that was voided in part is read again
            auto batches = store.batches_of_file(hash);
            std::erase_if(batches, [&](EntryNumber n) { return store.fact<Readings>(n).probe != request.probe; });
            if (!batches.empty() && std::all_of(batches.begin(), batches.end(),
                                                [&](EntryNumber n) { return posting.known().is_known(n); })) {
                ImportedFile same;
                same.name = file.name;
                same.sha256 = hash;
                same.known_already = true;
                out.files.push_back(std::move(same));
                continue;
            }
            logger::ReadFile read;
            try {
                read = reading.get();
            } catch (const LoggerRefusal& refusal) {  // the rows of all files that cannot be read are said together
                if (refusal.facts().unreadable > 0)
                    unreadable.push_back(refusal);
                else if (unreadable.empty())
                    throw;
            } catch (const Error&) {
                if (unreadable.empty()) throw;
            }
            if (!unreadable.empty()) continue;
            read.report.sha256 = hash;
            remark_without_place(posting.known(), request.probe, read);
            std::string().swap(file.content);  // megabytes that posting has no need of
            Readings bare;
            bare.probe = request.probe;
            briefs.push_back(
                {bare, read.rows.front().at.seconds_since_1970(), read.rows.back().at.seconds_since_1970()});
            post_rows(store, posting, request, *probe, read, recorded);
            out.files.push_back(std::move(read.report));
        }
        if (!unreadable.empty()) throw logger::together(unreadable);
        const auto found = loosening_since(store, last_before, briefs, now);
        if (!found) return;
        if (!found->asks.empty() && !request.loosen && !dry_run)
            throw Refusal(Code::missing_field, words::import_loosens(*words::semicolons(found->asks)));
        out.warnings = found->asks;
        out.warnings.insert(out.warnings.end(), found->says.begin(), found->says.end());
    });
    return out;
}

// ---- answers

View Ledger::as_of(const Question& question, Instant now) const {
    return sound(impl_->path, [&] {
        auto open = impl_->reading();
        const AnswerHead head = answers::head_of(impl_->opened(), question, now);
        return View(std::make_unique<View::Impl>(impl_->path, std::move(open), impl_->known_up_to(head.last_entry),
                                                 impl_->opened(), head));
    });
}

AnswerDraft Ledger::answer_draft(EntryNumber report, const Entry& guidance, Instant now) {
    AnswerDraft out =
        as_of({}, now).impl_->ask([&](answers::World& w) { return answers::answer_draft(w, report, guidance); });
    out.changes = changes(out.entries, now);
    answers::ask_what_is_meant(out, zone());
    return out;
}

DraftedRecords Ledger::give_records(const RecordsRequest& request, std::string_view text, Instant now) const {
    return impl_->look([&](const Store& store) { return answers::give_records(store, request, text, now); });
}

HandoverAnswer Ledger::handover(EntryNumber transfer, const Question& q, Instant now) const {
    return as_of(q, now).handover(transfer);
}
StockAnswer Ledger::stock(const Question& q, Instant now) const { return as_of(q, now).stock(); }
ListsAnswer Ledger::lists(const Question& q, Instant now) const { return as_of(q, now).lists(); }
ScanAnswer Ledger::scan(std::string_view text, const Question& q, Instant now) const {
    return as_of(q, now).scan(text);
}
ReviewAnswer Ledger::review(const Question& q, Instant now, bool all) const { return as_of(q, now).review(all); }
ImmunizationsAnswer Ledger::immunizations(const Question& q, const std::optional<std::string>& patient,
                                          Instant now) const {
    return as_of(q, now).immunizations(patient);
}
ExcursionsAnswer Ledger::excursions(const std::string& place, Instant from, Instant until, const Question& q,
                                    Instant now) const {
    return as_of(q, now).excursions(place, from, until);
}
ConditionsAnswer Ledger::conditions(const std::string& place, Instant from, Instant until, const Question& q,
                                    Instant now, std::int64_t activation_K) const {
    return as_of(q, now).conditions(place, from, until, activation_K);
}
UnitAnswer Ledger::unit(const std::string& place, std::optional<Instant> from, std::optional<Instant> until,
                        const Question& q, Instant now, std::int64_t activation_K) const {
    return as_of(q, now).unit(place, from, until, activation_K);
}
MoveListAnswer Ledger::move_list(const std::string& place, const std::optional<std::string>& container,
                                 const Question& q, Instant now) const {
    return as_of(q, now).move_list(place, container);
}
TripAnswer Ledger::trip(const std::string& container, std::optional<Duration> limit, const Question& q,
                        Instant now) const {
    return as_of(q, now).trip(container, limit);
}
Explanation Ledger::explain(const HoldingKey& holding, const Question& q, Instant now) const {
    return as_of(q, now).explain(holding);
}
ReadingsAnswer Ledger::readings(const std::string& probe, Instant from, Instant until, const Question& q,
                                Instant now) const {
    return as_of(q, now).readings(probe, from, until);
}
TraceAnswer Ledger::trace(const std::string& place, Instant from, Instant until, const Question& q, Instant now) const {
    return as_of(q, now).trace(place, from, until);
}
StaysAnswer Ledger::stays(const std::string& product, const std::string& lot, const Question& q, Instant now) const {
    return as_of(q, now).stays(product, lot);
}
IncidentsAnswer Ledger::incidents(const std::optional<std::string>& place, const std::optional<std::string>& probe,
                                  Instant from, Instant until, const Question& q, Instant now, bool others) const {
    return as_of(q, now).incidents(place, probe, from, until, others);
}
IncidentAnswer Ledger::incident(const std::string& id, const std::optional<std::string>& maker, const Question& q,
                                Instant now, bool patients) const {
    return as_of(q, now).incident(id, maker, patients);
}
RulesAnswer Ledger::rules(const std::optional<std::string>& place, Instant from, Instant until, const Question& q,
                          Instant now) const {
    return as_of(q, now).rules(place, from, until);
}
DatesAnswer Ledger::dates(const Question& q, Instant now) const { return as_of(q, now).dates(); }
LoansAnswer Ledger::loans(const Question& q, Instant now, bool all, bool patients) const {
    return as_of(q, now).loans(all, patients);
}
AccountabilityAnswer Ledger::accountability(Instant from, Instant until, const Question& q, Instant now) const {
    return as_of(q, now).accountability(from, until);
}
PlanAnswer Ledger::plan(const Question& q, Instant now) const { return as_of(q, now).plan(); }
FollowUpAnswer Ledger::follow_up(const std::optional<std::string>& lot, const std::optional<std::string>& product,
                                 const Question& q, Instant now) const {
    return as_of(q, now).follow_up(lot, product);
}
TrainingAnswer Ledger::training(const Question& q, Instant now) const { return as_of(q, now).training(); }
TodayAnswer Ledger::today(const Question& q, Instant now) const { return as_of(q, now).today(); }
ReadinessAnswer Ledger::readiness(std::optional<Instant> from, const Question& q, Instant now) const {
    return as_of(q, now).readiness(from);
}
EnteredAnswer Ledger::entered(const EnteredRequest& request, const Question& q, Instant now) const {
    return as_of(q, now).entered(request);
}
ShownAnswer Ledger::show(const ShowRequest& request, const Question& q, Instant now) const {
    return as_of(q, now).show(request);
}

Verification Ledger::verify(const std::optional<NotedLink>& noted) const {
    return impl_->look([&](const Store& store) { return ledger::verify(store, noted); });
}

Zone Ledger::zone(std::optional<Instant> known_on) const {
    return impl_->look([&](const Store& store) {
        const EntryNumber upto =
            known_on ? std::max<EntryNumber>(1, store.last_entry_by(*known_on)) : store.tip().entry;
        return impl_->known_up_to(upto)->zone();
    });
}

Scale Ledger::sheet_scale() const {
    return impl_->look(
        [&](const Store& store) { return answers::sheet_scale(store, *impl_->known_up_to(store.tip().entry)); });
}

Ledger::Counters Ledger::counters() const noexcept {
    if (!impl_->store) return {};
    const auto& w = impl_->store->counters();
    return {impl_->store->database().statements_run(), w.blocks_decoded, w.readings_decoded, w.movements_read};
}

}  // namespace coldtally
