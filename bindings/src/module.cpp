// The module coldtally._core: what Python needs of the library, in plain numbers and text; the package makes objects of it.
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "handle.hpp"

namespace py = pybind11;

namespace coldtally::python {

namespace {

/// The class of coldtally.errors for a code, by its stable name.
py::object error_class(const char* name) { return py::module_::import("coldtally.errors").attr("class_of")(name); }

void raise(const char* code, const char* message) { PyErr_SetString(error_class(code).ptr(), message); }

void translate(std::exception_ptr thrown) {
    try {
        if (thrown) std::rethrow_exception(thrown);
    } catch (const Error& error) {
        raise(std::string(code_name(error.code())).c_str(), error.what());
    } catch (const ClosedLedger&) {
        raise("closed-ledger", "the ledger is closed: open it again");
    } catch (const ForkedProcess&) {
        raise("forked-process", "this ledger was opened before the process was forked: open it again in the new process");
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
    module.def("check_degrees", [](const std::string& text) { TemperatureDifference::parse(text); }, py::arg("text"), "Refuses a text that is not degrees with at most three fractional digits.");
    module.def("check_layout", [](const std::string& json) { return LoggerLayout::parse(json).text(); }, py::arg("json"), "A logger's layout in the core's own form; refuses what is not one.");
    bind_ledger(module);
}
