"""What a cook reads first, in a cook's words: a piece, a cooker, an end by tenderness, an airtight pit."""

import pytest

import libcook as lc
from libcook import _core

PIT = lc.pit("drum", air="250 °F")


def test_a_piece_is_said_as_a_cook_says_it():
    meat = lc.brisket(mass="14 lb", thickness="65 mm", start="38 °F")
    said = str(meat)
    assert said == repr(meat)
    assert said.startswith("brisket, 14.0 lb (6.35 kg), 2.6 in (6.5 cm) thick, fat cap ")
    assert said.endswith(f" in ({100.0 * meat.fat_cap.thickness:.1f} cm) down, starts at 38 °F (3.3 °C)")


@pytest.mark.parametrize("cut", lc.cuts(), ids=lambda cut: cut.name)
def test_every_cut_says_its_name_its_weight_and_its_size(cut):
    said = str(lc.cut(cut.name))
    assert cut.name.split()[0] in said and "Shape(" not in said
    assert f"({cut.mass:.2f} kg)" in said and f"({100.0 * lc.cut(cut.name).shape.thickness:.1f} cm)" in said
    assert "starts at 39 °F (4 °C)" in said


def test_a_roll_has_a_diameter_and_no_fat_cap():
    roll = lc.Meat(shape=lc.Shape("cylinder", "4 in", "10 in"), fat_cap=lc.FatCap(side="none"))
    assert "4.0 in (10.2 cm) in diameter, no fat cap" in str(roll)


@pytest.mark.parametrize(
    ("word", "kind"),
    [
        ("electric", "cabinet"),
        ("gas smoker", "cabinet"),
        ("charcoal", "kettle"),
        ("barrel", "drum"),
        ("egg-shaped", "ceramic"),
        ("Wood", "offset"),
        ("pellets", "pellet"),
    ],
)
def test_a_word_of_the_trade_names_the_cooker(word, kind):
    for call in (lc.pit, lc.pit_air):
        with pytest.raises(lc.InvalidInput, match=f"did you mean '{kind}'"):
            call(word, air=120.0)
    assert _core.cooker_called(word) == kind


def test_an_end_by_tenderness_tells_its_core():
    plan = lc.Plan(
        lc.brisket(mass="14 lb"),
        [
            lc.Stage("smoke", PIT, until=lc.core("150 °F")),
            lc.Stage("foil", PIT, wrap="foil", until=lc.tender("80 %")),
            lc.Stage("rest", lc.counter(), wrap="foil", until=lc.elapsed("1 h")),
        ],
    )
    out = lc.simulate(plan)
    end = out.stage_ends[1]
    core = f"{1.8 * end.core + 32.0:.0f} °F"
    assert end.reason.startswith("tender: 80 %")
    assert f"core {core}" in repr(end) and end.reason in repr(end)
    assert f"foil: off the heat with the core at {core}" in repr(lc.compare({"foil": out}, units="F"))
    assert f"{1.8 * end.core + 32.0:.1f} °F" in lc.sentences(out, "F")[0]
    plain = lc.simulate(plan.replace(stages=[plan.stages[0]]))
    assert "off the heat" not in repr(lc.compare({"core": plain}))  # it ended at a core, which the plan says


def test_an_airtight_cooker_says_that_nothing_evaporates():
    meat = lc.brisket(mass="14 lb")

    def cooked(flow):
        return lc.simulate(
            lc.Plan(meat, [lc.Stage("smoke", lc.breathing(PIT, air_flow=flow), until=lc.core(90.0))])
        )

    tight, usual = cooked("0.001 g/s"), cooked("1 g/s")
    assert tight.loss.evaporated < 0.0 < 1.0 < usual.loss.evaporated  # some condenses on the cold meat
    (note,) = (note for note in tight.notes if "nearly airtight" in note)
    assert note.startswith("stage 'smoke'") and "evaporated" in note
    assert "nothing evaporated" in repr(tight) and "nothing evaporates meanwhile" in lc.sentences(tight)[1]
    assert not any("airtight" in note for note in usual.notes) and "nothing evap" not in repr(usual)
    for kind in _core.pit_kinds():  # cold meat gathers dew for a while in any of them
        for time in ("2 min", "20 min"):
            place = lc.breathing(lc.pit(kind, air="225 °F"))
            cold = lc.simulate(lc.Plan(meat, [lc.Stage("smoke", place, until=lc.elapsed(time))]))
            assert not any("airtight" in note for note in cold.notes), (kind, time)
    with pytest.raises(lc.InvalidInput, match="in an airtight cooker nothing evaporates"):
        lc.breathing(PIT, air_flow=0.0)


def test_foil_does_not_count_as_an_airtight_cooker():
    breathing = lc.breathing(PIT)
    stages = [
        lc.Stage("smoke", breathing, until=lc.core("150 °F")),
        lc.Stage("foil", breathing, wrap="foil", until=lc.core("200 °F")),
    ]
    assert not any("airtight" in note for note in lc.simulate(lc.Plan(lc.brisket(), stages)).notes)
