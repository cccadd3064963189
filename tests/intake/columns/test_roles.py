"""Which column is which: by name where that is plain, by the caller's word otherwise."""

from dataclasses import replace

import numpy as np
import pytest

from kit.intake.read import look, read_run

ROWS = [("0", "21.4", "21.3", "20.1", "420"), ("2", "21.5", "21.3", "20.2", "5000"), ("4", "21.6", "21.4", "20.1", "9000")]


def record(*heads):
    return "\n".join([";".join(["time (s)", *heads]), *(";".join(row[: len(heads) + 1]) for row in ROWS), ""])


def held(text, **words):
    """First reading of every role."""
    run = look(text, **words).run
    return {name: series.iloc[0] for name, series in run.readings.items()}


@pytest.mark.parametrize(
    "heads, roles",
    [
        (["treated (°C)", "control (°C)"], {"treated": 21.4, "control": 21.3}),
        (["Kontrolle (°C)", "behandelt (°C)"], {"treated": 21.3, "control": 21.4}),
        (["CO₂ vessel (°C)", "control vessel (°C)"], {"treated": 21.4, "control": 21.3}),
        (["Becher (CO2) [°C]", "Becher (Luft) [°C]", "Zimmer [°C]", "Strom (A)"], {"treated": 21.4, "control": 21.3, "room": 20.1}),
        (["untreated (°C)", "treated (°C)", "room (°C)", "CO2 (ppm)"], {"treated": 21.3, "control": 21.4, "room": 20.1, "gas_ppm": 420}),
        (["treated (°C)", "control (°C)", "humidity (%)", "light (lux)"], {"treated": 21.4, "control": 21.3, "light": 420}),
        (["treated (°C)", "control (°C)", "outside", "ppm"], {"treated": 21.4, "control": 21.3, "gas_ppm": 420}),
        (["treated (°C)", "control (°C)", "difference treated-control (°C)"], {"treated": 21.4, "control": 21.3}),
        (["treated (°C)", "control (°C)", "x (°C)", "(ppm)"], {"treated": 21.4, "control": 21.3, "gas_ppm": 420}),
    ],
)
def test_plain_names_tell(heads, roles):
    assert held(record(*heads)) == roles


@pytest.mark.parametrize(
    "words",
    [{"treated": "T2", "control": "T1"}, {"treated": 3, "control": 2}, {"treated": "t2 (°c)", "control": "T1 (°C)"}, {"treated": "2"}],
)
def test_the_caller_tells_where_names_do_not(words):
    text = record("T1 (°C)", "T2 (°C)")
    run = look(text, **{"control": "T1", **words}).run
    assert run.readings.treated.iloc[0] == 21.3 and run.readings.control.iloc[0] == 21.4


@pytest.mark.parametrize(
    "header, cells, ppm, words",
    [
        ("CO2 (ppm)", [420, 5000, 9000], 420, "in ppm"),
        ("CO2 (%)", [0.042, 0.5, 0.9], 420, "turned from % into ppm"),  # SI Brochure, 9th edition, 5.4.7: 1 ppm is 1e-6
        ("CO2 (ppb)", [420000, 5e6, 9e6], 420, "turned from ppb into ppm"),
        ("CO2", [420, 5000, 9000], 420, "in ppm: no unit is written, but these numbers fit air in ppm only"),
        ("gas", [0.042, 5, 90], 420, "turned from % into ppm: no unit is written, but these numbers fit air in % only"),
    ],
)
def test_gas_comes_out_in_ppm(header, cells, ppm, words):
    text = f"time (s);treated (°C);control (°C);{header}\n" + "".join(f"{n};21.4;21.3;{cell}\n" for n, cell in enumerate(cells))
    run = look(text).run
    assert run.readings.gas_ppm.iloc[0] == pytest.approx(ppm) and run.remarks[-1] == f"Took column '{header}' as gas, {words}."


@pytest.mark.parametrize("unit, celsius", [("degF", -5.888888888888889), ("K", -251.75), ("degC", 21.4)])
def test_the_word_gives_the_unit(unit, celsius):
    text = record("treated", "control")
    assert held(text, unit=unit)["treated"] == pytest.approx(celsius, abs=1e-9)


def test_the_word_outdoes_a_file_that_says_another_unit_of_all_and_that_is_said():
    run = look(record("treated (°C)", "control (°C)"), unit="degF").run
    assert run.remarks[2] == "Took column 'treated (°C)' as treated, turned from °F into °C; the file says °C, you said °F."


def test_the_word_is_meant_for_columns_that_say_no_unit():
    run = look(record("treated (°C)", "control"), unit="degF").run
    assert run.readings.treated.iloc[0] == 21.4 and run.readings.control.iloc[0] == pytest.approx((21.3 - 32) / 1.8)


def test_a_dict_gives_each_role_its_unit():
    run = look(record("treated", "control", "gas"), unit={"treated": "degC", "control": "K", "gas": "%"}).run
    assert run.readings.iloc[0].tolist() == pytest.approx([21.4, 21.3 - 273.15, 201_000])
    assert look(record("treated", "control", "gas"), unit=["degC", {"gas": "%"}]).run.readings.gas_ppm.iloc[0] == pytest.approx(201_000)


LETTERED = [21.4 + 0.13 * n for n in range(12)], [21.05 + 0.07 * n for n in range(12)]


def lettered(letters, second):
    rows = "".join(f"{10 * n};{one:.2f};{two:.2f}\n" for n, (one, two) in enumerate(zip(LETTERED[0], second)))
    return f"time (s);Temp ({letters[0]});Temp ({letters[1]})\n{rows}"


@pytest.mark.parametrize("letters", ["CD", "DC", "AB", "FG", "KL", "BC", "CF", "CK", "FK"])
def test_vessels_that_letters_name_are_two_and_their_unit_is_asked(letters):
    text = lettered(letters, LETTERED[1])
    asked = {each.keyword: [choice.value for choice in each.choices] for each in look(text).question.questions}
    both = [f"Temp ({letter})" for letter in letters]
    assert asked == {"treated": both, "control": both, "unit": ["degC", "degF", "K"]}
    run = look(text, treated=both[0], control=both[1], unit="degC").run
    assert run.readings.iloc[0].tolist() == [21.4, 21.05] and any("names" in remark for remark in run.remarks) == (letters != "AB")


@pytest.mark.parametrize("letter, turned", [("F", lambda celsius: 1.8 * celsius + 32), ("K", lambda celsius: celsius + 273.15)])
def test_a_letter_that_fits_as_a_unit_is_one(letter, turned):
    once = look(lettered(f"C{letter}", map(turned, LETTERED[0]))).question
    assert once.what.startswith("There is only one thermometer here, 'Temp (C)'")
    other = look(lettered(["deg C", f"deg {letter}"], LETTERED[1]), treated=2, control=3)
    assert other.run.readings.treated.iloc[0] == 21.4 and other.run.readings.control.iloc[0] < 0
    two = look(lettered(f"C{letter}", map(turned, LETTERED[1])), treated=2, control=3)
    assert two.run.readings.iloc[0].tolist() == pytest.approx([21.4, 21.05], abs=0.01)


def test_the_only_thermometer_left_is_the_other_vessel():
    run = look(record("A (°C)", "B (°C)", "humidity (%)"), treated="A").run
    assert run.readings.control.iloc[0] == 21.3 and "Only 'B (°C)' is left as a thermometer." in run.remarks


def test_the_room_is_not_taken_for_the_room_where_a_vessel_lacks():
    asked = look(record("treated (°C)", "room (°C)")).question.questions
    assert [(each.keyword, [choice.value for choice in each.choices]) for each in asked] == [("control", ["room (°C)"])]


def test_fahrenheit_in_gives_the_same_celsius():
    celsius = np.array([[float(cell) for cell in row[1:3]] for row in ROWS])
    rows = "".join(f"{row[0]};{one * 1.8 + 32};{two * 1.8 + 32}\n" for row, (one, two) in zip(ROWS, celsius))
    assert look("time (s);treated (°F);control (°F)\n" + rows).run.readings.to_numpy() == pytest.approx(celsius, abs=1e-9)


WHY = "Only a control shows what would have happened anyway."
ASK = "If it is there, say control= with its column; if not, repeat the run with both."


@pytest.mark.parametrize(
    "text, words, message",
    [
        (record("treated (°C)"), {}, f"pasted text: There is only one thermometer here, 'treated (°C)': none for the control vessel. {WHY} {ASK}"),
        (record("T (°C)"), {}, f"pasted text: There is only one thermometer here, 'T (°C)': none for the control vessel. {WHY} {ASK}"),
        (
            record("A (°C)", "B (°C)"),
            {},
            "pasted text: Which column is the treated vessel? Say treated='A (°C)' or treated='B (°C)'. Which column is the control vessel? "
            "Say control='A (°C)' or control='B (°C)'. "
            "One call settles all, for example: read_run(…, treated='A (°C)', control='B (°C)').",
        ),
        (
            record("treated 1 (°C)", "treated 2 (°C)", "control (°C)"),
            {},
            "pasted text: Which column is the treated vessel? Say treated='treated 1 (°C)' or treated='treated 2 (°C)'.",
        ),
        (
            record("treated", "control"),
            {},
            "pasted text: No unit is written for 'treated' and 'control'. Say unit='degC', unit='degF' or unit='K'.",
        ),
        (
            record("treated", "control"),
            {"unit": "metre"},
            "pasted text: 'metre' is no unit of temperature. Say unit='degC', unit='degF' or unit='K'.",
        ),
        (
            record("treated (ppm)", "control (°C)"),
            {"treated": 2},
            "pasted text, column 'treated (ppm)': This column is in ppm, which is no temperature. "
            "Say unit='degC', unit='degF' or unit='K'.",
        ),
        (
            record("treated (°C)", "control (°C)", "x (°C)"),
            {"gas": "x"},
            "pasted text, column 'x (°C)': This column is in °C, which is no share of a gas. Name another column: gas=.",
        ),
        (
            record("treated (°C)", "control (°C)"),
            {"treated": 2, "control": 2},
            "pasted text, column 'treated (°C)': This column can't be both treated and control. Say control= with another one.",
        ),
        (
            record("treated (°C)", "control (°C)"),
            {"treated": 1},
            "pasted text, column 'time (s)': This column can't be both time and treated. Say treated= with another one.",
        ),
        (
            record("treated (°C)", "control (°C)").replace("21.6", "abc"),
            {},
            "pasted text, line 4, column 'treated (°C)': 'abc' is no number. "
            "Correct it in a copy of the file, or leave the cell empty there.",
        ),
        (
            record("treated (°C)", "control (°C)", "gas").replace("20.1", "150"),
            {},
            "pasted text, column 'gas': No unit is written for this gas reading. "
            "Say unit={'gas': 'ppm'} or unit={'gas': '%'}. Or name another column: gas=.",
        ),
        (
            record("treated (°C)", "control (°C)").replace(";21.3", ";").replace(";21.4\n", ";\n"),
            {},
            "pasted text, column 'control (°C)': This column holds no numbers. Name another column.",
        ),
    ],
)
def test_what_is_asked_or_refused(text, words, message):
    fault = look(text, **words).question
    assert str(fault) == message and len(message.split()) <= 55


def test_a_vessel_with_one_reading_is_no_run():
    text = "time (s);treated (°C);control (°C)\n0;21.4;21.3\n2;21.5;\n4;21.6;\n"
    assert str(look(text).question) == (
        "pasted text, column 'control (°C)': There is 1 reading for the control vessel. A run needs at least two of each."
    )


def test_odd_cells_matter_only_where_the_column_is_used():
    run = look(record("treated (°C)", "control (°C)", "status").replace("20.2", "low battery")).run
    assert run.remarks[-1] == "Left unused: 'status'."


def test_an_empty_column_of_the_kits_own_file_comes_back_as_it_was(tmp_path):
    run = read_run("elapsed_s,treated_degC,control_degC,light\n0,21,20,5\n2,21,20,6\n4,22,20,7\n")
    run = replace(run, readings=run.readings.assign(light=np.nan))
    run.save(tmp_path / "saved.csv")
    again = read_run(tmp_path / "saved.csv").readings
    assert again.light.isna().all() and again.treated.equals(run.readings.treated)


@pytest.mark.parametrize("cells", [["", "", ""], ["on", "on", "off"]])
def test_a_column_for_light_without_numbers_is_left_out_and_said(cells):
    run = read_run("elapsed_s,treated_degC,control_degC,light\n" + "".join(f"{2 * n},21,20,{cell}\n" for n, cell in enumerate(cells)))
    assert "light" not in run.readings and "Column 'light' holds no numbers: left out." in run.remarks


@pytest.mark.parametrize(
    "head, celsius, decimals",
    [
        ("Temperature (°C),Temperature (°F)", [20.4] * 6, 2),  # called alike: one value throughout is enough
        ("a,b", [22.9375, 22.9375, 23.0, 23.0, 22.9375, 23.0], 4),  # two values, so fine that no other thermometer would fit them
        ("a,b", [21.4, 21.5, 21.5, 21.6, 21.7, 21.6], 1),
    ],
)
def test_one_thermometer_in_two_units_is_never_both_vessels(head, celsius, decimals):
    rows = [f"{2 * place},{value},{round(1.8 * value + 32, decimals)}" for place, value in enumerate(celsius)]
    assert "There is only one thermometer here" in str(look("\n".join([f"time (s),{head}", *rows, ""])).question)


def test_two_thermometers_that_stand_still_are_not_taken_for_one():
    rows = [f"{2 * place},21,70" for place in range(6)]
    assert look("\n".join(["time (s),a,b", *rows, ""]), treated="a", control="b", unit="degC").run is not None
    assert [each.keyword for each in look("\n".join(["time (s),a,b", *rows, ""])).questions] == ["treated", "control", "unit"]


def test_a_kiln_is_a_thermometer_if_it_is_called_so():
    rows = [f"{2 * place},{554.1 - place},37.9" for place in range(6)]
    assert look("\n".join(["time (s),temp oven,temp room side", *rows, ""]), treated=2, control=3, unit="degC").run.readings.treated.iloc[0] == 554.1
