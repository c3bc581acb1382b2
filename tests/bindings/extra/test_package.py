"""What `make install` puts in place serves a program that is built with pkg-config or CMake, wherever the tree lies."""

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]
EXAMPLES = ROOT / "mixcalc-ffi/examples"
DEMO = ROOT / "docs/examples/demo.toml"
CC, CXX = (os.environ.get(name, name.lower().replace("xx", "++")).split() for name in ("CC", "CXX"))

TEN_LINES = """#include <mixcalc.h>
#include <stdio.h>

int main(void)
{
    double mix_l = 0;
    mixcalc_error error = MIXCALC_ERROR_INIT;
    if (mixcalc_mix_l(200, 12.4, &mix_l, &error) != MIXCALC_STATUS_OK)
        return fprintf(stderr, "%s\\n", error.message), 1;
    return printf("%.1f L\\n", mix_l) < 0;
}
"""


def run(*command, **more) -> str:
    done = subprocess.run(command, capture_output=True, text=True, **more)
    assert done.returncode == 0, f"{command}\n{done.stdout}{done.stderr}"
    return done.stdout


@pytest.fixture
def prefix(c_package, tmp_path) -> Path:
    """The installed tree, moved: its files must find each other."""
    return shutil.copytree(c_package, tmp_path / "moved here", symlinks=True)


def pkg_config(prefix, *how) -> list:
    flags = run("pkg-config", *how, "mixcalc", env={**os.environ, "PKG_CONFIG_PATH": str(prefix / "lib/pkgconfig")})
    return [flag.replace("\\ ", " ") for flag in re.split(r"(?<!\\) ", flags.strip())]


def test_ten_lines_with_pkg_config(prefix, tmp_path):
    (tmp_path / "ten.c").write_text(TEN_LINES, encoding="utf-8")
    flags = pkg_config(prefix, "--cflags", "--libs")
    run(*CC, tmp_path / "ten.c", *flags, f"-Wl,-rpath,{prefix / 'lib'}", "-o", tmp_path / "ten")
    assert run(tmp_path / "ten") == "2480.0 L\n"
    version = re.search(r'MIXCALC_VERSION "(.*)"', (prefix / "include/mixcalc.h").read_text(encoding="utf-8"))[1]
    assert pkg_config(prefix, "--modversion") == [version]


def test_ten_lines_with_the_static_library(prefix, tmp_path):
    (tmp_path / "ten.c").write_text(TEN_LINES, encoding="utf-8")
    (prefix / "lib/libmixcalc.so").unlink()
    run(*CC, tmp_path / "ten.c", *pkg_config(prefix, "--cflags", "--libs", "--static"), "-o", tmp_path / "ten")
    assert "libmixcalc" not in run("readelf", "-d", tmp_path / "ten")
    assert run(tmp_path / "ten") == "2480.0 L\n"


def test_ten_lines_with_cmake(prefix, tmp_path):
    (tmp_path / "ten.c").write_text(TEN_LINES, encoding="utf-8")
    (tmp_path / "CMakeLists.txt").write_text(
        "cmake_minimum_required(VERSION 3.16)\nproject(ten C)\nfind_package(mixcalc 0.1.0 CONFIG REQUIRED)\n"
        "add_executable(shared ten.c)\ntarget_link_libraries(shared mixcalc::mixcalc)\n"
        "add_executable(static ten.c)\ntarget_link_libraries(static mixcalc::static)\n",
        encoding="utf-8",
    )
    run("cmake", "-S", tmp_path, "-B", tmp_path / "build", f"-DCMAKE_PREFIX_PATH={prefix}")
    run("cmake", "--build", tmp_path / "build")
    for program in ("shared", "static"):
        assert run(tmp_path / "build" / program) == "2480.0 L\n"
        assert ("libmixcalc.so.0" in run("readelf", "-d", tmp_path / "build" / program)) == (program == "shared")


def test_another_version_is_not_found(prefix, tmp_path):
    (tmp_path / "CMakeLists.txt").write_text(
        "cmake_minimum_required(VERSION 3.16)\nproject(ten C)\nfind_package(mixcalc 0.2.0 CONFIG QUIET)\n"
        "if(mixcalc_FOUND)\n  message(FATAL_ERROR found)\nendif()\n",
        encoding="utf-8",
    )
    run("cmake", "-S", tmp_path, "-B", tmp_path / "build", f"-DCMAKE_PREFIX_PATH={prefix}")


def test_the_shared_library_has_its_name_and_is_small(c_package, header):
    library = (c_package / "lib/libmixcalc.so").resolve()
    abi = re.search(r"#define MIXCALC_ABI_VERSION (\d+)", header)[1]
    assert f"soname: [libmixcalc.so.{abi}]" in run("readelf", "-d", library)
    assert (c_package / f"lib/libmixcalc.so.{abi}").resolve() == library
    print(f"{library.stat().st_size} bytes")
    # The rules of the season, the bases of the crop, the slips of the unit and the mixing orders brought it from 1.0 to 1.4 MB, calibration to 2.0,
    # containers, accuracies and tables of readings to 2.1, columns with their loops for AVX2 to 2.3.
    assert library.stat().st_size < 2_400_000
    assert ".symtab" not in run("readelf", "-S", library)


def test_the_libraries_say_nothing_of_the_machine_they_were_built_on(c_package):
    for library in ("libmixcalc.so", "libmixcalc.a"):
        text = (c_package / "lib" / library).read_bytes()
        for place in (str(Path.home()).encode() + b"/.cargo", str(ROOT).encode() + b"/"):
            assert place not in text, library


def test_the_example_in_c(prefix, tmp_path):
    flags = [*pkg_config(prefix, "--cflags", "--libs"), f"-Wl,-rpath,{prefix / 'lib'}", "-o", tmp_path / "demo"]
    run(*CC, "-std=c11", "-Wall", "-Wextra", "-Wpedantic", "-Werror", EXAMPLES / "demo.c", *flags)
    assert "loads 1 to 6: 16 L of mix each" in run(tmp_path / "demo", DEMO)
    assert "graduations" in run(tmp_path / "demo", DEMO)
    run(*CC, "-std=c11", "-Wall", "-Wextra", "-Wpedantic", "-Werror", EXAMPLES / "calibrate.c", *flags)
    assert "volume rate: 180 L/ha" in (said := run(tmp_path / "demo")) and "nozzle 3: replace" in said


def test_the_example_in_c_measures_nothing_for_a_stopped_plan(prefix, c_programs, tmp_path):
    flags = [*pkg_config(prefix, "--cflags", "--libs"), f"-Wl,-rpath,{prefix / 'lib'}", "-o", tmp_path / "demo"]
    run(*CC, EXAMPLES / "demo.c", *flags)
    done = subprocess.run([tmp_path / "demo", c_programs / "stopped.toml"], capture_output=True, text=True)
    assert done.returncode == 1 and "STOP: " in done.stdout and "graduations" not in done.stdout and "agitate" not in done.stdout


def test_the_example_in_cpp(prefix, c_programs, tmp_path):
    flags = [*pkg_config(prefix, "--cflags", "--libs"), f"-Wl,-rpath,{prefix / 'lib'}", "-o", tmp_path / "demo"]
    run(*CXX, "-std=c++17", "-Wall", "-Wextra", "-Wpedantic", "-Werror", EXAMPLES / "demo.cpp", *flags)
    assert "7 loads, 109.1 L of mix" in run(tmp_path / "demo", DEMO)
    assert subprocess.run([tmp_path / "demo", c_programs / "stopped.toml"], capture_output=True).returncode == 1
    assert subprocess.run([tmp_path / "demo", "no such file"], capture_output=True).returncode == 2


def test_the_example_in_java(c_package, c_plan, tmp_path):
    java = ["java", "--add-modules", "jdk.incubator.foreign", "--enable-native-access=ALL-UNNAMED"]
    number, plan, *_ = run(*java, EXAMPLES / "Demo.java", (c_package / "lib/libmixcalc.so").resolve(), DEMO).splitlines()
    assert number == "2480.0"
    assert plan == run(c_plan, DEMO).strip()


def test_the_readme_s_c_compiles_and_runs(prefix, tmp_path):
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    blocks = re.findall(r"```(c|cpp)\n(.*?)```", readme, flags=re.S)
    assert {language for language, _ in blocks} == {"c", "cpp"}
    for number, (language, code) in enumerate(blocks):
        source = tmp_path / f"{number}.{language}"
        source.write_text(code, encoding="utf-8")
        compiler = CC if language == "c" else [*CXX, "-std=c++17"]
        flags = [*pkg_config(prefix, "--cflags", "--libs"), f"-Wl,-rpath,{prefix / 'lib'}", "-o", source.with_suffix("")]
        run(*compiler, "-Wall", "-Wextra", "-Werror", source, *flags)
        assert run(source.with_suffix("")).strip()
