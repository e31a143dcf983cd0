"""Opens the room on a copy of the invented notebook and tries every address of its description with made-up requests.

    python tests/description/check.py target/debug/kaoyi

Needs the package schemathesis (tests/published/requirements.txt). KAOYI_EXAMPLES: made-up requests an address and phase.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent


def main() -> int:
    tool = shutil.which("schemathesis", path=f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}")
    if tool is None:
        print("no schemathesis: the description was not tried")
        return 0
    with tempfile.TemporaryDirectory(prefix="kaoyi-") as folder:
        shutil.copytree(HERE.parent.parent / "docs/examples/notebook", f"{folder}/notebook")
        environment = dict(os.environ, XDG_CACHE_HOME=folder)
        serve = [sys.argv[1], "serve", "--port", "0", "--notebook", f"{folder}/notebook"]
        room = subprocess.Popen(serve, stdout=subprocess.PIPE, text=True, env=environment)
        try:
            address = re.search(r"http://\S+?(?=/?\s)", room.stdout.readline()).group(0)
            results = [trial(tool, address, folder, environment, mode) for mode in ("positive", "negative")]
            if room.poll() is not None:
                print("the room closed")
                return 1
            return max(results)
        finally:
            room.terminate()
            room.wait()


def trial(tool: str, address: str, folder: str, environment: dict, mode: str) -> int:
    """One trial, with requests that have the form of the description or with such as do not."""
    command = [
        tool, "--config-file", str(HERE / "schemathesis.toml"), "run", f"{address}/api/openapi.json", "--checks", "all",
        "--mode", mode, "--seed", "1", "--workers", "2", "--no-color", "--continue-on-failure", "--request-timeout", "20",
        "--max-examples", os.environ.get("KAOYI_EXAMPLES", "15"),
    ]
    more = {"ROOM": address, "MODE": mode, "SCHEMATHESIS_HOOKS": str(HERE / "hooks.py")}
    return subprocess.run(command, cwd=folder, env=environment | more, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
