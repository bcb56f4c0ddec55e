// The module coldtally._core: what Python needs of the library, in plain numbers and text; the package makes objects of
// it.
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "handle.hpp"

namespace py = pybind11;

namespace coldtally::python {

namespace {

/// The class of coldtally.errors for a code, by its stable name.
py::object error_class(const char* name) { return py::module_::import("coldtally.errors").attr("class_of")(name); }

/// A file's name may be any bytes.
py::str as_text(const std::string& bytes) {
    return py::reinterpret_steal<py::str>(
        PyUnicode_DecodeUTF8(bytes.data(), static_cast<Py_ssize_t>(bytes.size()), "replace"));
}

void raise(const char* code, const char* message) { PyErr_SetString(error_class(code).ptr(), message); }

/// With its facts; the package names its own arguments.
void raise_refusal(const LoggerRefusal& refusal) {
    const auto& facts = refusal.facts();
    py::list rows, remedies;
    for (const auto& row : facts.rows) rows.append(py::make_tuple(as_text(row.file), row.line, as_text(row.what)));
    for (const Remedy& r : facts.remedies) remedies.append(py::make_tuple(r.when, r.layout.text()));
    const py::object error =
        py::module_::import("coldtally.errors")
            .attr("refusal_of")(std::string(code_name(refusal.code())), as_text(facts.found), facts.unreadable,
                                facts.without_remedy, facts.can_accept, rows, remedies);
    PyErr_SetObject(py::type::of(error).ptr(), error.ptr());
}

void translate(std::exception_ptr thrown) {
    try {
        if (thrown) std::rethrow_exception(thrown);
    } catch (const LoggerRefusal& refusal) {
        raise_refusal(refusal);
    } catch (const Refusal& refusal) {  // whose way out is a call here
        raise(std::string(code_name(refusal.code())).c_str(), english_for_python().say(refusal.said()).c_str());
    } catch (const Error& error) {
        raise(std::string(code_name(error.code())).c_str(), error.what());
    } catch (const ClosedLedger&) {
        raise("closed-ledger", "the ledger is closed: open it again");
    } catch (const ForkedProcess&) {
        raise("forked-process",
              "this ledger was opened before the process was forked: open it again in the new process");
    }
}

std::vector<std::string> code_names() {
    std::vector<std::string> out;
    for (int i = 0; code_name(Code(i)) != "unknown"; ++i) out.emplace_back(code_name(Code(i)));
    return out;
}

std::vector<std::string> machine_failures() {
    std::vector<std::string> out;
    for (int i = 0; code_name(Code(i)) != "unknown"; ++i)
        if (is_machine_failure(Code(i))) out.emplace_back(code_name(Code(i)));
    return out;
}

template <std::size_t... i>
std::vector<std::string> kinds_of(std::index_sequence<i...>) {
    return {std::string(std::variant_alternative_t<i, Fact>::kind)...};
}

std::vector<std::string> entry_kinds() { return kinds_of(std::make_index_sequence<std::variant_size_v<Fact>>{}); }

}  // namespace
}  // namespace coldtally::python

PYBIND11_MODULE(_core, module) {
    using namespace coldtally;
    using namespace coldtally::python;
    module.doc() = "The compiled part of coldtally. Use the package; what is here may change.";
    py::register_exception_translator(&translate);
    module.attr("__version__") = COLDTALLY_VERSION;
    module.attr("caution") = caution;
    module.attr("review_caution") = review_caution;
    module.def("code_names", &code_names, "The stable name of every code of the core.");
    module.def("machine_failures", &machine_failures, "Those of them that mean that the machine failed.");
    module.def("entry_kinds", &entry_kinds, "Every kind of entry, by its name in the wire form.");
    module.def(
        "check_degrees", [](const std::string& text) { TemperatureDifference::parse(text); }, py::arg("text"),
        "Refuses a text that is not degrees with at most three fractional digits.");
    module.def(
        "check_layout", [](const std::string& json) { return LoggerLayout::parse(json).text(); }, py::arg("json"),
        "A logger's layout in the core's own form; refuses what is not one.");
    bind_ledger(module);
}
