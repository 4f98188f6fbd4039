"""The command line: one clear line and exit code 2 for our errors, 1 for problems found, JSON for programs."""

import json
from pathlib import Path

import jsonschema
import pytest

from qa import contract
from qa.cli import main
from qa.settings import SETTINGS_FILE


@pytest.fixture
def run(monkeypatch, capsys, tmp_path):
    """Run `levelspoon ARGS` in an empty folder; gives exit code, standard output and standard error."""
    monkeypatch.chdir(tmp_path)

    def run_it(*args: str) -> tuple[int, str, str]:
        monkeypatch.setattr("sys.argv", ["levelspoon", *args])
        with pytest.raises(SystemExit) as ended:
            main()
        out, err = capsys.readouterr()
        return int(ended.value.code or 0), out, err

    return run_it


@pytest.fixture
def bench(run, tmp_path):
    assert run("new", "bench")[0] == 0
    return tmp_path / "bench"


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (["weigh", "nothing at all"], "no amount"),
        (["weigh", "2 tbsp unobtainium"], "unobtainium"),
        (["weigh", "-3 g flax"], "less than nothing"),
        (["weigh", "1 tbsp"], "no ingredient"),
        (["weigh", "1 us tbsp flax in parsecs"], "parsecs"),
        (["swap", "1 tbsp ground flax", "--for", "baking soda"], "no swap"),
        (["schema", "aks"], "did you mean 'ask'"),
        (["topics"], "levelspoon new DIR"),
        (["topics", "--at", "nowhere"], "no workbench"),
        (["read", "x.csv", "--at", "nowhere"], "no workbench"),
        (["score", "none.jsonl"], "none.jsonl"),
        (["forget", "ann"], "no workbench"),
    ],
)
def test_our_errors_are_one_line_that_says_what_to_do(run, args, says):
    code, out, err = run(*args)
    assert code == 2
    assert out == ""
    assert says in err
    assert err.startswith("levelspoon: ")
    assert err.count("\n") == 1
    assert "Traceback" not in err


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("missing.csv", None, "no such file"),
        ("empty.csv", b"", "empty"),
        ("strange.bin", bytes(range(256)) * 20, "strange.bin"),
        ("page.html", b"<html><body>hello</body></html>", "page.html"),
        ("bomb.xml", b'<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><feed>&b;</feed>', "bomb.xml"),
        ("broken.json", b'{"comments": [', "broken.json"),
    ],
)
def test_a_file_that_cannot_be_read_is_one_line(run, bench, name, content, says):
    if content is not None:
        Path(name).write_bytes(content)
    code, _, err = run("read", name, "--at", str(bench))
    assert code == 2
    assert says in err
    assert err.count("\n") == 1


def test_reading_says_what_became_of_every_row(run, bench):
    Path("week.csv").write_text("author,comment\nann,Can I use chia?\nbob,\ncy,Lovely bread\n", encoding="utf-8")
    code, out, _ = run("read", "week.csv", "--at", str(bench), "--json")
    account = json.loads(out)
    jsonschema.validate(account, contract.schema("read"))
    assert code == 0
    assert (account["rows_read"], account["stored"], account["already_known"]) == (3, 2, 0)
    assert account["set_aside"] == [{"file": "week.csv", "row": 2, "reason": "no text"}]
    assert "rows read 3 = stored 0 + already known 2 + set aside 1" in run("read", "week.csv", "--at", str(bench))[1]
    assert "row 2: no text" in run("aside", "--at", str(bench))[1]


def test_looking_first_stores_nothing(run, bench):
    Path("week.csv").write_text("author,comment\nann,Can I use chia?\n", encoding="utf-8")
    code, out, _ = run("read", "week.csv", "--dry-run")
    assert code == 0
    assert "comment" in out
    assert json.loads(run("read", "week.csv", "--at", str(bench), "--json")[1])["stored"] == 1


def test_a_workbench_is_the_current_folder_if_none_is_named(run, bench, monkeypatch):
    monkeypatch.chdir(bench)
    assert Path(SETTINGS_FILE).exists()
    assert run("topics") == (0, "No topics yet. Read an export and draft first.\n", "")


def test_check_exits_with_1_and_names_file_line_and_remedy(run, bench):
    path = bench / "knowledge" / "sources.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("kind: database", "kind: databse", 1), encoding="utf-8")
    code, out, _ = run("check", "--at", str(bench))
    assert code == 1
    assert "sources.yaml:" in out
    assert "do: did you mean 'database'?" in out
    code, out, _ = run("check", "--at", str(bench), "--json")
    assert code == 1
    assert json.loads(out)["problems"][0]["line"] > 0


@pytest.mark.parametrize("name", ["weigh", "swap", "ask"])
def test_json_keeps_to_its_printed_schema(run, name):
    args = {
        "weigh": ["2 us tbsp potato starch"],
        "swap": ["1 us tbsp ground flax", "--for", "chia"],
        "ask": ["I take blood thinners, can I eat flax every day?"],
    }[name]
    code, out, _ = run(name, *args, "--json")
    assert code == 0
    schema = json.loads(run("schema", name)[1])
    jsonschema.validate(json.loads(out), schema)


@pytest.mark.parametrize("form", ["csv", "jsonl", "md", "html", "faq"])
def test_exports_go_to_the_screen_or_to_a_file(run, bench, form):
    code, out, _ = run("export", "replies", "--format", form, "--at", str(bench))
    assert code == 0
    assert run("export", "--format", form, "--at", str(bench), "--out", "out.file")[0] == 0
    assert Path("out.file").read_bytes().decode().rstrip("\r\n") == out.rstrip("\r\n").replace("\r\n", "\r\n")


def test_a_file_that_cannot_be_written_is_one_line(run, bench):
    code, _, err = run("export", "--at", str(bench), "--out", "no/such/folder/x.csv")
    assert code == 2
    assert "cannot write" in err
