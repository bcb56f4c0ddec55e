"""The Python package, for pip: CMake builds the compiled part, setuptools packs it. Version and sources are CMake's."""
import os
import pathlib
import re
import shutil
import subprocess
import sys

from setuptools import Extension, setup
from setuptools.command.build_ext import build_ext

ROOT = pathlib.Path(__file__).resolve().parent


class CMakeBuild(build_ext):
    """Builds coldtally._core by CMake, without the tests and the command line."""

    def build_extension(self, ext):
        # as the presets have it; CMake's own choice would be make
        generator = os.environ.get("CMAKE_GENERATOR", "Ninja")
        work = pathlib.Path(self.build_temp).resolve() / re.sub(r"\W+", "-", generator).lower()
        options = [
            "-G",
            generator,
            "-DCMAKE_BUILD_TYPE=Release",
            "-DCOLDTALLY_DEVELOPER=OFF",
            "-DCOLDTALLY_CLI=OFF",
            "-DCOLDTALLY_PYTHON=ON",
            f"-DPython_EXECUTABLE={sys.executable}",
        ]
        subprocess.run(["cmake", "-S", str(ROOT), "-B", str(work), *options], check=True)
        subprocess.run(
            ["cmake", "--build", str(work), "--target", "coldtally_python", "-j", str(os.cpu_count() or 1)], check=True
        )
        target = pathlib.Path(self.get_ext_fullpath(ext.name))
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(next((work / "bindings" / "coldtally").glob("_core*.so")), target)


setup(
    version=re.search(r"project\(coldtally VERSION ([0-9.]+)", (ROOT / "CMakeLists.txt").read_text())[1],
    packages=["coldtally"],
    package_dir={"coldtally": "bindings/coldtally"},
    package_data={"coldtally": ["py.typed", "_core.pyi"]},
    ext_modules=[Extension("coldtally._core", [])],
    cmdclass={"build_ext": CMakeBuild},
    options={"build": {"build_base": "build-python"}, "egg_info": {"egg_base": "bindings"}},
    zip_safe=False,
)
