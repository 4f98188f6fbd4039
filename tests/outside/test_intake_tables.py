"""Tables as people export them: delimiters, encodings, headers, quoting, spreadsheets."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from openpyxl import Workbook

from qa.errors import Place, UnreadableInput
from qa.outside.intake import look, read_comments
from qa.outside.intake.names import meaning
from qa.outside.intake.tables import LONGEST_LINE
from qa.records import Comment, SetAside

Rows = list[Comment | SetAside]


def read(folder: Path, content: str | bytes, name: str = "week.csv", **mapping: str) -> Rows:
    file = folder / name
    file.write_bytes(content if isinstance(content, bytes) else content.encode())
    return list(read_comments(file, mapping or None))


def texts(rows: Rows) -> list[str]:
    return [row.text if isinstance(row, Comment) else f"({row.reason})" for row in rows]


def test_every_field_lands_where_it_belongs(tmp_path: Path) -> None:
    rows = read(
        tmp_path,
        "comment_id,author,published_at,like_count,parent_id,video_id,comment\n"
        'c7,@oat_fan,2026-03-02T10:11:12Z,"1,234",c1,seed-eggs,"Chia, or flax?"\n',
    )
    place = Place(str(tmp_path / "week.csv"), 1)
    assert rows == [Comment("c7", "Chia, or flax?", "@oat_fan", "2026-03-02T10:11:12Z", 1234, "c1", "seed-eggs", place)]


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_the_delimiter_is_found(tmp_path: Path, delimiter: str) -> None:
    rows = [["author", "comment", "likes"], ["ann", "flax, chia; or | psyllium?", "3"], ["bob", "thanks", "1"]]
    text = "\n".join(delimiter.join(f'"{c}"' for c in row) for row in rows)
    (tmp_path / "week.csv").write_text(text)
    preview = look(tmp_path / "week.csv")
    assert preview.delimiter == delimiter
    assert texts(list(preview.rows)) == ["flax, chia; or | psyllium?", "thanks"]


@pytest.mark.parametrize(
    ("encoding", "text"),
    [
        ("utf-8", "Grüße 🥚 ½ Tasse"),
        ("utf-8-sig", "Grüße 🥚 ½ Tasse"),
        ("utf-16", "Grüße 🥚 ½ Tasse"),
        ("utf-16-le", "flour and a half cup, is it fine? ½"),
        ("utf-32", "Grüße 🥚 ½ Tasse"),
        ("cp1252", "Können Mandeln das Weizenmehl ersetzen? “Größe” – 5 €"),
        ("cp1252", "très bon, mais ça colle à la poêle, où est la crème fraîche?"),
        ("cp1250", "Czy można użyć mąki ryżowej zamiast pszennej, żeby było lżejsze? Łyżka"),
        ("cp1251", "Можно ли заменить яйца семенами чиа в этом рецепте?"),
        ("cp932", "チアシードで代用できますか？小麦粉は何グラムですか"),
        ("euc_jp", "チアシードで代用できますか？小麦粉は何グラムですか"),
        ("gb18030", "可以用木薯淀粉代替土豆淀粉吗？一勺是多少克？"),
        ("cp949", "감자전분 대신 타피오카 전분을 써도 되나요? 한 숟가락은 몇 그램인가요"),
    ],
)
def test_the_encoding_is_found(tmp_path: Path, encoding: str, text: str) -> None:
    rows = read(tmp_path, f"author\tcomment\nann\t{text}\nbob\t{text}\n".encode(encoding))
    assert texts(rows) == [text, text]


def test_a_utf8_file_with_one_broken_byte_keeps_its_other_letters(tmp_path: Path) -> None:
    good = "".join(f"a{n},süß genug?\n" for n in range(30)).encode()
    rows = read(tmp_path, b"author,comment\n" + good + b"bob,cut \xc3 off\n")
    assert texts(rows) == ["süß genug?"] * 30 + ["cut \ufffd off"]


@pytest.mark.parametrize(
    "header",
    [
        "Nutzer;Kommentar;Datum;Gefällt mir",
        "auteur;commentaire;date;j'aime",
        "usuario;comentario;fecha;me gusta",
        "utente;commento;data;mi piace",
        "użytkownik;komentarz;data;polubienia",
        "автор;комментарий;дата;лайки",
        "投稿者;コメント;日時;高評価",
        "用户;评论;时间;赞",
        "작성자;댓글;날짜;좋아요",
        "Posted by;Message body;Created at (UTC);Votes",
        "userName;commentText;createdAt;likeCount",
    ],
)
def test_columns_are_told_in_many_languages(tmp_path: Path, header: str) -> None:
    rows = read(
        tmp_path, f"{header}\nann;Geht das mit Chia?;2026-03-02 10:00;3\nbob;Und mit Flachs?;2026-03-03 11:00;0\n"
    )
    assert [(r.author, r.text, r.time, r.likes) for r in rows if isinstance(r, Comment)] == [
        ("ann", "Geht das mit Chia?", "2026-03-02T10:00", 3),
        ("bob", "Und mit Flachs?", "2026-03-03T11:00", 0),
    ]


@pytest.mark.parametrize(
    ("name", "role"),
    [
        ("author.name", "author"), ("author.id", "author"), ("user_id", "author"), ("created_by", "author"),
        ("comment author", "author"), ("comment date", "time"), ("comment likes", "likes"), ("comment", "text"),
        ("content.rendered", "text"), ("inReplyTo", "parent"), ("parent.id", "parent"), ("reply_to", "parent"),
        ("text_id", "id"), ("upvotes", "likes"), ("likes.count", "likes"), ("updated", "time"), ("episode", "episode"),
        ("reply_count", None), ("dislikes", None), ("author_url", None), ("avatar", None), ("parent_text", None),
        ("language", None), ("is_public", None), ("xyzzy", None), ("", None),
    ],
)  # fmt: skip
def test_what_a_name_says(name: str, role: str | None) -> None:
    found = meaning(name)
    assert (found and found[0]) == role


def test_values_overrule_a_misleading_name(tmp_path: Path) -> None:
    """A column called 'comment' that holds numbers is no text; 'data' is the date only if it holds dates."""
    rows = read(tmp_path, "comment,data,body\n17,2026-03-02,Is it flax?\n18,2026-03-03,Is it chia?\n")
    assert [(r.text, r.time) for r in rows if isinstance(r, Comment)] == [
        ("Is it flax?", "2026-03-02"),
        ("Is it chia?", "2026-03-03"),
    ]


def test_a_table_without_a_header_is_told_by_its_looks(tmp_path: Path) -> None:
    content = "ann,2026-03-02,I love this and will bake it again!\nbob,2026-03-03,How many grams is that?\n"
    rows = read(tmp_path, content)
    assert [(r.author, r.time, r.text) for r in rows if isinstance(r, Comment)] == [
        ("ann", "2026-03-02", "I love this and will bake it again!"),
        ("bob", "2026-03-03", "How many grams is that?"),
    ]
    preview = look(tmp_path / "week.csv")
    assert not preview.header
    assert "no header row" in preview.notes[0]


def test_one_column_of_texts_needs_neither_header_nor_quotes(tmp_path: Path) -> None:
    assert texts(read(tmp_path, "can I use chia, or flax?\nhow much, please\nthanks\n")) == [
        "can I use chia, or flax?",
        "how much, please",
        "thanks",
    ]


def test_title_lines_above_the_header_are_no_rows(tmp_path: Path) -> None:
    rows = read(tmp_path, "Comments of week 9,,\n,,\nauthor,comment,likes\nann,Chia?,2\n")
    assert texts(rows) == ["Chia?"]
    assert rows[0].place.line == 1


def test_a_line_that_names_the_separator_is_obeyed(tmp_path: Path) -> None:
    assert texts(read(tmp_path, "sep=;\nauthor;comment\nann;flax, or chia\n")) == ["flax, or chia"]


def test_quoted_line_breaks_belong_to_the_text(tmp_path: Path) -> None:
    rows = read(tmp_path, 'author,comment\r\nann,"first line\r\nsecond ""quoted"" line"\r\nbob,thanks\r\n')
    assert texts(rows) == ['first line\r\nsecond "quoted" line', "thanks"]


def test_ragged_rows_are_set_aside_with_the_reason(tmp_path: Path) -> None:
    rows = read(tmp_path, "id,author,comment\n1,ann,Chia?\n2,bob\n3,cat,Flax,too\n4,dan,Oats?,\n")
    assert texts(rows) == ["Chia?", "(2 cells where the header has 3)", "(4 cells where the header has 3)", "Oats?"]
    assert isinstance(rows[2], SetAside)
    assert (rows[2].place.line, rows[2].content) == (3, "3 | cat | Flax | too")


def test_a_stray_quote_costs_no_row(tmp_path: Path) -> None:
    content = 'id,comment\n1,"never closed\n2,say "hi" there\n3,"fine"\n4,"open again\n5,bye\n'
    assert texts(read(tmp_path, content)) == ["never closed", 'say "hi" there', "fine", "open again", "bye"]


def test_backslash_escapes_are_understood(tmp_path: Path) -> None:
    content = 'id,comment,likes\n1,"she said \\"chia, please\\" to me",3\n2,"thanks",1\n'
    assert texts(read(tmp_path, content)) == ['she said "chia, please" to me', "thanks"]


def test_nul_bytes_and_half_characters_do_not_get_through(tmp_path: Path) -> None:
    assert texts(read(tmp_path, b"id,comment\n1,chi\x00a please\n2,thank you all\n")) == [
        "chia please",
        "thank you all",
    ]


def test_html_of_the_carrier_is_undone(tmp_path: Path) -> None:
    content = 'id,comment\n1,it&#39;s &lt;3 g<br>right?\n2,<a href="x">flax</a> &amp; chia\n3,I <3 this &c\n'
    assert texts(read(tmp_path, content)) == ["it's <3 g\nright?", "flax & chia", "I <3 this &c"]


def test_an_absurdly_long_line_is_set_aside_and_reading_goes_on(tmp_path: Path) -> None:
    rows = read(tmp_path, "id,comment\n1,before\n2," + "a" * (LONGEST_LINE + 10) + "\n3,after\n")
    assert texts(rows) == ["before", f"(a line of over {LONGEST_LINE:,} characters)", "after"]
    assert all(len(row.content) <= 500 for row in rows if isinstance(row, SetAside))


def test_a_megabyte_of_text_is_a_comment(tmp_path: Path) -> None:
    assert [len(t) for t in texts(read(tmp_path, f"id,comment\n1,{'flax ' * 200_000}\n"))] == [1_000_000]


def test_a_header_without_rows_reads_as_nothing(tmp_path: Path) -> None:
    assert read(tmp_path, "id,comment\n") == []


# Ids


def test_one_id_with_two_texts_is_noticed_and_one_with_the_same_is_not(tmp_path: Path) -> None:
    rows = read(tmp_path, "id,author,comment\nc1,ann,Chia?\nc1,ann,Flax?\nc1,ann,Chia?\n")
    assert texts(rows) == ["Chia?", "(id 'c1' stands earlier in this file with another text)", "Chia?"]
    assert isinstance(rows[1], SetAside)
    assert rows[1].content == "ann: Flax?"


def test_a_made_id_is_the_same_in_any_file_and_shape(tmp_path: Path) -> None:
    table = read(tmp_path, "who,comment,date\nann,Chia?,2026-03-02\n", author="who")
    lines = read(tmp_path, '{"text": "Chia?", "author": "ann", "time": "2026-03-02"}\n', "week.jsonl")
    assert [row.id for row in table if isinstance(row, Comment)] == [
        row.id for row in lines if isinstance(row, Comment)
    ]


def test_equal_anonymous_texts_stay_apart_and_keep_their_ids(tmp_path: Path) -> None:
    first = read(tmp_path, "comment\nyum\nyum\nrecipe?\n")
    longer = read(tmp_path, "comment\nrecipe?\nyum\nyum\nyum\n")
    ids = [{row.id for row in rows if isinstance(row, Comment)} for rows in (first, longer)]
    assert [len(s) for s in ids] == [3, 4]
    assert ids[0] < ids[1]


# Mapping


def test_map_wins_by_name_in_any_case_and_by_number(tmp_path: Path) -> None:
    content = "a,b,c\nann,old flour,Is it flax?\nbob,old sugar,Is it chia?\n"
    assert texts(read(tmp_path, content, text="B")) == ["old flour", "old sugar"]
    headerless = "ann,one two,three four\nbob,five six,seven eight\n"
    assert texts(read(tmp_path, headerless, text="2", author="1")) == ["one two", "five six"]


def test_a_column_that_cannot_be_told_asks_for_map_and_lists_them(tmp_path: Path) -> None:
    with pytest.raises(UnreadableInput, match=r"cannot tell which column holds the comments; name it with --map text="):
        read(tmp_path, "likes,time\n3,2026-03-02\n")
    with pytest.raises(UnreadableInput, match="columns: likes, time"):
        read(tmp_path, "likes,time\n3,2026-03-02\n")


def test_a_wrong_mapping_is_one_clear_line(tmp_path: Path) -> None:
    with pytest.raises(UnreadableInput, match=r"no column 'comentt' for text; did you mean 'comment'\?"):
        read(tmp_path, "id,comment\n1,Chia?\n", text="comentt")
    with pytest.raises(UnreadableInput, match=r"--map: no role 'autor'; did you mean 'author'\?"):
        read(tmp_path, "id,comment\n1,Chia?\n", autor="id")


def test_an_episode_stands_where_the_rows_name_none(tmp_path: Path) -> None:
    (tmp_path / "week.csv").write_text("comment,episode\nChia?,\nFlax?,white-loaf\n")
    rows = read_comments(tmp_path / "week.csv", episode="seed-eggs")
    assert [row.episode for row in rows if isinstance(row, Comment)] == ["seed-eggs", "white-loaf"]


# Times


def test_a_date_is_read_day_first_or_month_first_as_the_column_shows(tmp_path: Path) -> None:
    british = read(tmp_path, "comment,date\nChia?,03/04/2026\nFlax?,25/04/2026\n")
    american = read(tmp_path, "comment,date\nChia?,03/04/2026 1:05 PM\nFlax?,04/25/2026 1:05 PM\n")
    assert [r.time for r in british if isinstance(r, Comment)] == ["2026-04-03", "2026-04-25"]
    assert [r.time for r in american if isinstance(r, Comment)] == ["2026-03-04T13:05:00", "2026-04-25T13:05:00"]


def test_a_date_that_can_be_read_two_ways_is_left_empty_and_said(tmp_path: Path) -> None:
    rows = read(tmp_path, "comment,date\nChia?,03/04/2026\n")
    assert [r.time for r in rows if isinstance(r, Comment)] == [""]
    assert "two ways" in look(tmp_path / "week.csv").notes[0]


def test_running_numbers_as_ids_are_remarked_on(tmp_path: Path) -> None:
    read(tmp_path, "id,comment\n1,Chia?\n2,Flax?\n3,Oats?\n")
    assert "running numbers" in look(tmp_path / "week.csv").notes[0]


# Spreadsheets


def spreadsheet(folder: Path, *sheets: list[list[object]]) -> Path:
    book = Workbook()
    for number, rows in enumerate(sheets):
        sheet = book.active if number == 0 else book.create_sheet(f"Sheet{number + 1}")
        assert sheet is not None
        for row in rows:
            sheet.append(row)
    book.save(folder / "week.xlsx")
    return folder / "week.xlsx"


def test_a_spreadsheet_with_titles_and_merged_cells_is_read(tmp_path: Path) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet["A1"] = "Quillberry Test Kitchen (invented)"
    sheet.merge_cells("A1:D1")
    sheet["A3"] = "exported"
    for row in (
        [],
        ["Viewer", "Comment", "When", "Likes"],
        ["ann", "Chia?", dt.datetime(2026, 3, 2, 10, 11, tzinfo=None), 3],
        ["bob", "=) thanks", None, None],
        [None, None, None, 4],
        [],
        ["cat", 50, None, None],
    ):
        sheet.append(row)
    book.save(tmp_path / "week.xlsx")
    rows = list(read_comments(tmp_path / "week.xlsx"))
    assert texts(rows) == ["Chia?", "=) thanks", "(no text)", "50"]
    assert isinstance(rows[0], Comment)
    assert (rows[0].author, rows[0].time, rows[0].likes) == ("ann", "2026-03-02T10:11:00", 3)
    assert [row.place.line for row in rows] == [1, 2, 3, 4]


def test_every_sheet_of_comments_is_read_and_notes_are_set_aside(tmp_path: Path) -> None:
    file = spreadsheet(
        tmp_path,
        [["comment", "author"], ["Chia?", "ann"]],
        [["Please see the first sheet"], ["and nothing else"]],
        [["author", "comment"], ["bob", "Flax?"]],
    )
    rows = list(read_comments(file))
    assert texts(rows) == ["Chia?", *["(sheet 'Sheet2' has no column of comments)"] * 2, "Flax?"]
    assert rows[-1].place.file.endswith("week.xlsx#Sheet3")
    assert "'Sheet2'" in look(file).notes[0]
