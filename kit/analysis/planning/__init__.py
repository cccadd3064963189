"""The plan of a run: gas dose, timetable, repeats, safety."""

from kit.analysis.planning.benchcard import bench_card, BenchCard
from kit.analysis.planning.dosing import gas_dose, GasDose
from kit.analysis.planning.plan import Plan, plan_run

__all__ = ["bench_card", "BenchCard", "gas_dose", "GasDose", "Plan", "plan_run"]
