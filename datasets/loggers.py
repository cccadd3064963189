"""One run as different loggers might write it. The forms are invented; each shows a habit that real files have."""

START_S = 10 * 3600 + 41 * 60 + 20  # 10:41:20, when group Dolomite switched its lamp on
LAPTOP_SET_S, LAPTOP_AHEAD_S = 6 * 60, 40  # the laptop's clock was put right during the run
SPIKE_S, SPIKE_C, LOST_S = 1260, 6.0, 500
SAID = "Invented data, simulated for the Twin Vessels kit"


def dolomite(run):
    """Two clocks, decimal commas, a row of units, a lost reading, a jump of 6 °C, and a gas probe at its top end."""
    rows = [f"{SAID}; group Dolomite", "Logger time;Laptop clock;Treated;Control;CO2", "h:mm:ss;hh:mm:ss;°C;°C;ppm"]
    for second, treated, control, gas in readings(run):
        laptop = START_S + second + (LAPTOP_AHEAD_S if second >= LAPTOP_SET_S else 0)
        shown = ["---" if second == LOST_S else comma(treated + (SPIKE_C if second == SPIKE_S else 0)), comma(control), f"{gas:.0f}"]
        rows.append(";".join([clock(second), clock(laptop), *shown]))
    return lines(rows)


def six(run):
    """File name -> bytes: every fifth reading of one run, in six hands."""
    kept = [each for each in readings(run) if each[0] % 10 == 0]
    return {f"six-loggers/{name}": lines([*head, *map(row, kept)], encoding) for name, (head, row, encoding) in HANDS.items()}


def in_seconds(reading):
    second, treated, control, gas = reading
    return f"{second},{treated:.2f},{control:.2f},{gas:.0f}"


def german(reading):
    second, treated, control, _ = reading
    return f"05.10.2026 {clock(START_S + second)};{comma(treated)};{comma(control)}"


def minutes_and_seconds(reading):
    second, treated, control, _ = reading
    return f"{second // 60}:{second % 60:02}\t{treated:.2f}\t{control:.2f}"


def iso(reading):
    second, treated, control, _ = reading
    return f"2026-10-05T{clock(START_S + second)}+02:00,{fahrenheit(treated):.2f},{fahrenheit(control):.2f}"


def kelvin(reading):
    second, treated, control, _ = reading
    return f"{second / 60:.4f}|{treated + 273.15:.2f}|{control + 273.15:.2f}"


def half_day(reading):
    """A twelve-hour clock that passes noon on the way."""
    second, treated, control, _ = reading
    hour, rest = divmod(11 * 3600 + 52 * 60 + second, 3600)
    return f"{(hour - 1) % 12 + 1}:{rest // 60:02}:{rest % 60:02} {'PM' if hour >= 12 else 'AM'}\t{treated:.2f}\t{control:.2f}"


PREAMBLE = [SAID, "Bench: window side", "Interval: 10 s", "", "Elapsed\tTreated\tControl", "mm:ss\t°C\t°C"]
# File name: lines above the readings, how a reading is written, encoding.
HANDS = {
    "1-comma-seconds.csv": (["Time (s),Treated (°C),Control (°C),CO2 (ppm)"], in_seconds, "utf-8"),
    "2-semicolon-clock.csv": (["Datum;Behandelt (°C);Kontrolle (°C)"], german, "cp1252"),
    "3-tab-preamble.txt": (PREAMBLE, minutes_and_seconds, "utf-8"),
    "4-iso-fahrenheit.csv": (["timestamp,treated_degF,control_degF"], iso, "utf-8"),
    "5-pipe-kelvin.txt": (["t [min]|Probe 1 [K]|Probe 2 [K]"], kelvin, "utf-8"),
    "6-twelve-hours.txt": (["Clock\tTreated vessel\tControl vessel", "h:mm:ss\tdegC\tdegC"], half_day, "utf-16"),
}


def readings(run):
    """(seconds, treated, control, gas) of each reading, seconds whole."""
    columns = run.readings[["treated", "control", "gas_ppm"]].to_numpy().tolist()
    return [(int(second), *values) for second, values in zip(run.readings.index, columns)]


def clock(second):
    return f"{second // 3600}:{second // 60 % 60:02}:{second % 60:02}"


def comma(value):
    return f"{value:.2f}".replace(".", ",")


def fahrenheit(celsius):
    return 1.8 * celsius + 32


def decimals(step):
    """Decimals that show a display's step: 0.01 needs two."""
    return len(f"{step:g}".partition(".")[2])


def lines(rows, encoding="utf-8"):
    """The file's bytes: every row ended by a line feed. UTF-16 is little-endian with a byte-order mark on every machine."""
    text = "".join(f"{row}\n" for row in rows)
    return b"\xff\xfe" + text.encode("utf-16-le") if encoding == "utf-16" else text.encode(encoding)
