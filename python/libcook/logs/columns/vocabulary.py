"""Words in the headers of logs, in English, German, French and Spanish, and the role that each speaks for.

Words of the trade (common practice, no source), spelled as `libcook.logs.columns.names.plain` makes them: in
small letters, without accents. An entry of several words stands for the whole header.
"""

from __future__ import annotations

# For each role its words, the most telling first.
ROLES: dict[str, tuple[frozenset[str], ...]] = {
    "time": (
        frozenset(
            (
                *("time", "timestamp", "datetime", "elapsed", "clock"),
                *("zeit", "uhrzeit", "zeitstempel", "heure", "horodatage", "hora", "tiempo"),
            )
        ),
        frozenset(
            (
                *("seconds", "minutes", "hours", "min", "t", "date", "ts", "epoch", "unix", "duration"),
                *("sekunden", "minuten", "stunden", "datum", "dauer", "laufzeit"),
                *(
                    "secondes",
                    "heures",
                    "duree",
                    "temps",
                    "segundos",
                    "minutos",
                    "horas",
                    "fecha",
                    "duracion",
                ),
            )
        ),
    ),
    "core": (
        frozenset(("core", "kern", "coeur", "corazon", "nucleo")),
        frozenset(
            (
                *("meat", "internal", "centre", "center", "brisket", "pork", "shoulder", "butt", "chuck"),
                *("beef", "lamb", "turkey", "ribs", "roast", "thigh", "breast"),
                *("fleisch", "innen", "rinderbrust", "schwein", "schulter", "nacken", "rind", "lamm"),
                *("pute", "rippen", "braten", "keule"),
                *("viande", "interne", "poitrine", "porc", "epaule", "echine", "boeuf", "agneau", "dinde"),
                *("carne", "interna", "interno", "pecho", "cerdo", "paleta", "cordero", "pavo", "asado"),
            )
        ),
        frozenset(("probe", "food", "fuhler", "fuehler", "gargut", "sonde", "aliment", "sonda", "comida")),
    ),
    "pit": (
        frozenset(("pit", "garraum", "grillraum")),
        frozenset(
            (
                *("chamber", "cooker", "smoker", "oven", "grate", "grill", "bbq", "barbecue", "dome"),
                *("kammer", "ofen", "raucherofen", "raeucherofen", "rost", "deckel", "kessel"),
                *(
                    "fumoir",
                    "four",
                    "enceinte",
                    "foyer",
                    "parrilla",
                    "horno",
                    "ahumador",
                    "camara",
                    "barbacoa",
                ),
            )
        ),
        frozenset(("air", "ambient", "umgebung", "luft", "ambiante", "ambiance", "ambiente", "aire")),
    ),
}
NOTES = frozenset(
    (
        *("event", "events", "note", "notes", "remark", "remarks", "comment", "comments"),
        *("ereignis", "ereignisse", "notiz", "notizen", "bemerkung", "bemerkungen", "kommentar"),
        *("evenement", "evenements", "remarque", "remarques", "commentaire", "commentaires"),
        *("evento", "eventos", "nota", "notas", "observacion", "observaciones", "comentario", "comentarios"),
    )
)
ROLES["events"] = (frozenset(("event", "events")), NOTES - {"event", "events"})
# Air outside of the cooker.
OUTDOORS = frozenset(
    ("outside", "outdoor", "outdoors", "weather", "aussen", "draussen", "exterieur", "exterior", "meteo")
)
NOT_TEMPERATURE = frozenset(
    (
        *("fan", "damper", "battery", "humidity", "rh", "signal", "rssi", "volt", "voltage", "power", "duty"),
        *("wind", "fuel", "weight", "pressure", "speed", "flow", "vent"),
        *("lufter", "luefter", "klappe", "akku", "batterie", "feuchte", "luftfeuchte", "luftfeuchtigkeit"),
        *("spannung", "leistung", "gewicht", "druck", "drehzahl"),
        *("ventilateur", "humidite", "puissance", "tension", "poids", "debit"),
        *("ventilador", "bateria", "humedad", "potencia", "peso", "presion", "viento"),
    )
)
# Columns that number the rows, unless they speak of a probe: "Probe no. 1".
ORDINALS = frozenset(
    ("row", "index", "id", "number", "no", "zeile", "nr", "nummer", "ligne", "numero", "fila", "linea")
)
SETTINGS = frozenset(
    (
        *("set", "setpoint", "target", "alarm", "limit", "goal", "soll", "sollwert", "ziel", "grenze"),
        *("consigne", "cible", "alarme", "objetivo", "alarma", "limite"),
    )
)
# Columns that tell which probe a row is of, where each probe has rows of its own.
SERIES = frozenset(
    (
        *("sensor", "probe", "channel", "name", "series", "source", "label", "kanal", "messstelle"),
        *("fuhler", "fuehler", "sonde", "capteur", "canal", "voie", "sonda"),
    )
)
# What shows that a column is meant as a temperature, beside the words of core and pit.
WARMTH = frozenset(
    ("temp", "temps", "temperature", "temperatures", "temperatur", "temperaturen", "temperatura")
) | {"flat", "point", "surface", "bark", "rest", "wrap", "box", "sensor", "channel", "kanal", "canal"}
# Second halves of compounds: "Kerntemperatur", "meatprobe".
ENDINGS = (
    *("temperature", "temperatur", "temperatura", "temp", "fuhler", "fuehler", "probe", "sensor", "sonde"),
    *("kern", "raum"),
)
# Columns that hold the unit of the readings beside them.
UNIT_COLUMNS = frozenset(("unit", "units", "scale", "einheit", "unite", "unidad"))
