// The text of libcook/schema/plan.schema.json, which is the original: after a change there, paste it here
// between the brackets. The tests compare the two. It stands in pieces because compilers limit the length of
// one literal.
#include "cook/json/json.hpp"

namespace cook {

std::string_view plan_schema() {
  // clang-format off
  static constexpr std::string_view text =
R"json({
  "$schema": "https://json-schema.org/draft/2020-12/schema",
  "$id": "urn:libcook:plan:1",
  "title": "libcook plan, version 1",
  "description": "A cook from start to slice, in SI units and °C. Members left out keep their defaults; ranges are checked on reading.",
  "type": "object", "additionalProperties": false,
  "required": ["format", "version", "stages"],
  "properties": {
    "$schema": {"description": "for editors; ignored", "type": "string"},
    "format": {"const": "libcook plan"},
    "version": {"const": 1},
    "meat": {"description": "a brisket if left out", "$ref": "#/$defs/meat"},
    "clock_start": {
      "description": "time of day at the start",
      "anyOf": [{"$ref": "#/$defs/time_of_day"}, {"type": "null"}]
    },
    "stages": {
      "description": "one after the other",
      "type": "array",
      "minItems": 1,
      "items": {"$ref": "#/$defs/stage"}
    },
    "probes": {
      "description": "further probes, read all through the cook",
      "type": "array",
      "items": {"$ref": "#/$defs/probe"}
    }
  },
  "$defs": {
    "meat": {
      "description": "the piece: by its cut and mass, or in full",
      "anyOf": [{"$ref": "#/$defs/cut"}, {"$ref": "#/$defs/meat_in_full"}]
    },
    "cut": {
      "description": "a piece of a cut",
      "type": "object", "additionalProperties": false,
      "required": ["cut", "mass"],
      "properties": {
        "cut": {"description": "its name", "enum": ["brisket", "brisket flat", "brisket point", "brisket half", "pork shoulder", "pork butt", "pork picnic", "pork neck", "beef chuck", "beef clod", "beef rib roast", "beef plate ribs", "beef short ribs", "lamb shoulder", "lamb leg", "turkey breast", "brisket_flat", "brisket_point", "brisket_half", "pork_shoulder", "pork_butt", "pork_picnic", "pork_neck", "beef_chuck", "beef_clod", "beef_rib_roast", "beef_plate_ribs", "beef_short_ribs", "lamb_shoulder", "lamb_leg", "turkey_breast"]},
        "mass": {"description": "raw, trimmed, bone included [kg]", "type": "number"},
        "thickness": {
          "description": "mean, of the lean part; estimated from the mass if left out [m]",
          "type": ["number", "null"]
        },
        "start": {"description": "temperature throughout at the start [°C]", "type": "number"},
        "fat": {"description": "where its fat cap is; as of the cut if left out", "enum": ["none", "down", "up"]}
      }
    },
    "meat_in_full": {
      "description": "material, shape, fat cap and starting temperature",
      "type": "object", "additionalProperties": false,
      "properties": {
        "tissue": {"$ref": "#/$defs/tissue"},
        "shape": {"$ref": "#/$defs/shape"},
        "fat_cap": {"$ref": "#/$defs/fat_cap"},
        "start": {"description": "temperature throughout at the start [°C]", "type": "number"},
        "build": {
          "description": "how its section looks when none is given",
          "enum": ["even", "flat and point"]
        },
        "section": {
          "description": "lengthwise cross-section, for runs on one; as the build says if left out",
          "anyOf": [{"$ref": "#/$defs/section"}, {"type": "null"}]
        }
      }
    },
    "section": {
      "description": "lengthwise cross-section from the flat end to the point end; its volume is the shape's",
      "type": "object", "additionalProperties": false,
      "properties": {
        "length": {"description": "from the flat end to the point end [m]", "type": "number"},
        "width": {"description": "across, the direction that the section does not see [m]", "type": "number"},
        "at": {"description": "distances from the flat end [m]: 0 first, length last", "type": "array", "items": {"type": "number"}},
        "thickness": {"description": "of the lean part there [m]", "type": "array", "items": {"type": "number"}},
        "point": {"description": "tissue above the seam", "anyOf": [{"$ref": "#/$defs/tissue"}, {"type": "null"}]},
        "seam": {"description": "tissue of the seam", "anyOf": [{"$ref": "#/$defs/tissue"}, {"type": "null"}]},
        "seam_from": {"description": "where the seam leaves the top face, share of the length [-]", "type": "number"},
        "seam_height_end": {"description": "its height at the point end, share of the thickness [-]", "type": "number"},
        "seam_thickness": {"description": "[m]", "type": "number"},
        "side_share": {"description": "share of the two long sides that counts [-]", "type": "number"}
      }
    },
    "tissue": {
      "description": "meat as a material; the default is brisket",
      "type": "object", "additionalProperties": false,
      "properties": {
        "name": {"description": "for labels", "type": "string"},
        "composition": {"$ref": "#/$defs/composition"},
        "holding": {"$ref": "#/$defs/holding"},
        "mobility": {"$ref": "#/$defs/mobility"},
        "sorption": {"$ref": "#/$defs/sorption"},
        "sinks": {"$ref": "#/$defs/sinks"},
        "exudation": {"$ref": "#/$defs/exudation"},
        "tenderness": {"$ref": "#/$defs/tenderness"},
        "fixed": {
          "description": "constant thermal properties in place of those from the composition; none if left out",
          "anyOf": [{"$ref": "#/$defs/fixed"}, {"type": "null"}]
        },
        "emissivity": {"description": "of a bare or fat face in the thermal infrared [-]", "type": "number"},
        "cooked_conductivity": {"description": "conductivity of cooked tissue over that of raw tissue [-]", "type": "number"}
      }
    },
    "composition": {
      "description": "mass fractions of the raw tissue; they sum to 1",
      "type": "object", "additionalProperties": false,
      "properties": {
        "water": {"description": "[kg/kg]", "type": "number"},
        "protein": {"description": "[kg/kg]", "type": "number"},
        "fat": {"description": "[kg/kg]", "type": "number"},
        "carbohydrate": {"description": "[kg/kg]", "type": "number"},
        "ash": {"description": "[kg/kg]", "type": "number"}
      }
    },
    "holding": {
      "description": "water held by the proteins: 1 - (1 - final_share) / (1 + exp(-(T - midpoint) / width))",
      "type": "object", "additionalProperties": false,
      "properties": {
        "final_share": {"description": "share of the raw water still held when fully cooked [-]", "type": "number"},
        "midpoint": {"description": "temperature of half the release [°C]", "type": "number"},
        "width": {"description": "of the sigmoid [K]", "type": "number"}
      }
    },
    "mobility": {
      "description": "how fast water moves through the tissue",
      "type": "object", "additionalProperties": false,
      "properties": {
        "expressed": {"description": "mobility of expressed juice at 60 °C [m²/s]", "type": "number"},
        "held": {"description": "mobility of held water at 60 °C [m²/s]", "type": "number"},
        "held_activation": {"description": "activation energy of the held mobility [J/mol]", "type": "number"},
        "dry_below": {
          "description": "water content below which the held mobility falls steeply [kg/kg dry]",
          "type": "number"
        },
        "dry_floor": {"description": "share of the held mobility left in bone-dry crust [-]", "type": "number"},
        "switch_width": {
          "description": "half width of the smooth step from held to expressed [kg/kg dry]",
          "type": "number"
        }
      }
    },
    "sorption": {
      "description": "Guggenheim-Anderson-de Boer isotherm",
      "type": "object", "additionalProperties": false,
      "properties": {
        "monolayer": {"description": "[kg/kg dry]", "type": "number"},
        "c": {"description": "constant C [-]", "type": "number"},
        "k": {"description": "constant K [-]", "type": "number"}
      }
    },
    "sinks": {
      "description": "heat taken up by melting fat and denaturing protein",
      "type": "object", "additionalProperties": false,
      "properties": {
        "fat_latent": {"description": "latent heat of melting [J per kg fat]", "type": "number"},
        "fat_melt_start": {"description": "[°C]", "type": "number"},
        "fat_melt_end": {"description": "[°C]", "type": "number"},
        "denaturation": {"description": "denaturation enthalpy [J per kg protein]", "type": "number"},
        "denaturation_start": {"description": "[°C]", "type": "number"},
        "denaturation_end": {"description": "[°C]", "type": "number"}
      }
    },
    "exudation": {
      "description": "what happens to juice that reaches a face",
      "type": "object", "additionalProperties": false,
      "properties": {
        "path": {"description": "length over which juice leaves the surface tissue [m]", "type": "number"},
        "bare_film": {"description": "liquid that a bare face holds before it runs off [kg/m²]", "type": "number"},
        "run_off_time": {"description": "time constant of running off [s]", "type": "number"}
      }
    },
    "tenderness": {
      "description": "collagen turning to gelatin",
      "type": "object", "additionalProperties": false,
      "properties": {
        "rate_90": {"description": "rate at 90 °C [1/s]", "type": "number"},
        "activation": {"description": "activation energy [J/mol]", "type": "number"}
      }
    },
    "fixed": {
      "description": "for materials other than meat; water then carries no heat of its own",
      "type": "object", "additionalProperties": false,
      "properties": {
        "conductivity": {"description": "[W/mK]", "type": "number"},
        "heat_capacity": {"description": "per volume [J/m³K]", "type": "number"}
      }
    },
    "shape": {
      "description": "size of the raw piece without its fat cap",
      "type": "object", "additionalProperties": false,
      "properties": {
        "kind": {"description": "a slab has two faces, a cylinder one", "enum": ["slab", "cylinder"]},
        "thickness": {"description": "of the slab, or diameter of the cylinder [m]", "type": "number"},
        "extent": {
          "description": "area of one face of the slab [m²], or length of the cylinder [m]",
          "type": "number"
        },
        "width": {
          "description": "one side of the slab's face [m]; null: its sides are not known and not counted",
          "type": ["number", "null"]
        }
      }
    },
    "fat_cap": {
      "description": "a layer of fat on one face",
      "type": "object", "additionalProperties": false,
      "properties": {
        "side": {"description": "the face that carries it; a cylinder has none", "enum": ["none", "down", "up"]},
        "thickness": {"description": "[m]", "type": "number"},
        "vapour_resistivity": {"description": "resistance to vapour per thickness [s/m²]", "type": "number"}
      }
    },
    "stage": {
      "description": "a stage of the cook: somewhere, under something, until something",
      "type": "object", "additionalProperties": false,
      "required": ["until"],
      "properties": {
        "name": {"description": "for labels and messages", "type": "string"},
        "surroundings": {"$ref": "#/$defs/surroundings"},
        "wrap": {"$ref": "#/$defs/wrap"},
        "until": {
          "description": "the first condition reached ends the stage",
          "anyOf": [{"$ref": "#/$defs/end"}, {"type": "array", "items": {"$ref": "#/$defs/end"}, "minItems": 1}]
        },
        "spritz": {
          "description": "liquid sprayed on at intervals; none if left out",
          "anyOf": [{"$ref": "#/$defs/spritz"}, {"type": "null"}]
        },
        "lid": {"description": "lid openings", "type": "array", "items": {"$ref": "#/$defs/lid_opening"}},
        "at_most": {"description": "give up after this long [s]", "type": "number"},
        "probe": {
          "description": "where the probe sits that the core and 'until' follow from this stage on; as before if left out",
          "anyOf": [{"$ref": "#/$defs/probe"}, {"type": "null"}]
        }
      }
    },
    "end": {
      "description": "what ends a stage: one of these",
)json"
R"json(      "type": "object", "additionalProperties": false,
      "oneOf": [
        {"required": ["core"]}, {"required": ["cooled"]}, {"required": ["elapsed"]},
        {"required": ["clock"]}, {"required": ["bark"]}, {"required": ["tender"]}
      ],
      "properties": {
        "every": {"description": "looked at only every so often, from the start of the stage [s]; 0: all the time", "type": "number"},
        "core": {"description": "the core warms to this [°C]", "type": "number"},
        "cooled": {"description": "the core cools to this [°C]", "type": "number"},
        "elapsed": {"description": "the stage has lasted this long [s]", "type": "number"},
        "clock": {
          "description": "it is this time of day; needs the plan's clock_start",
          "$ref": "#/$defs/time_of_day"
        },
        "bark": {"description": "index of the bark of the bare face [-]; it is set at 1", "type": "number"},
        "tender": {"description": "collagen converted at the core reaches this share [-]", "type": "number"}
      }
    },
    "pit_air": {
      "description": "how a cooker's chamber breathes",
      "type": "object", "additionalProperties": false,
      "properties": {
        "air_flow": {"description": "dry air through the chamber [kg/s]", "type": "number"},
        "inlet_vapour_pressure": {"description": "in the air that comes in [Pa]", "type": "number"},
        "fuel_water": {"description": "vapour from the fuel [kg/s]", "type": "number"},
        "volume": {"description": "of the chamber [m³]", "type": "number"},
        "pressure": {"description": "total [Pa]", "type": "number"},
        "meat_count": {"description": "how many such pieces share the chamber [-]", "type": "number"},
        "pan": {"description": "water pan; none if left out", "anyOf": [{"$ref": "#/$defs/water_pan"}, {"type": "null"}]}
      }
    },
    "water_pan": {
      "description": "a water pan",
      "type": "object", "additionalProperties": false,
      "properties": {
        "area": {"description": "water surface, and pan bottom [m²]", "type": "number"},
        "water": {"description": "at the start [kg]", "type": "number"},
        "temperature": {"description": "of the water at the start [°C]", "type": "number"},
        "film": {"description": "convection at the surface, and under the bottom", "$ref": "#/$defs/film"},
        "emissivity": {"description": "of water and pan [-]", "type": "number"},
        "view": {"description": "factor on the radiation exchange [-]", "type": "number"},
        "radiant_bottom": {"description": "what the bottom sees, above air temperature (coals) [K]", "type": "number"},
        "heat_capacity": {"description": "of the empty pan [J/K]", "type": "number"}
      }
    },
    "time_of_day": {
      "description": "a time of day: \"hh:mm\", or seconds after midnight",
      "anyOf": [{"type": "number"}, {"type": "string", "pattern": "^([01][0-9]|2[0-3]):[0-5][0-9]$"}]
    },
    "surroundings": {
      "description": "pit, oven, holding_oven, counter or insulated_box, or in full; members beside a short form replace what it sets",
      "type": "object", "additionalProperties": false,
      "dependentRequired": {"pit": ["air"], "fan": ["oven"], "humidity": ["holding_oven"]},
      "dependentSchemas": {
        "pit": {"properties": {"oven": false, "holding_oven": false, "counter": false, "insulated_box": false}},
        "oven": {"properties": {"air": false, "holding_oven": false, "counter": false, "insulated_box": false}},
        "holding_oven": {"properties": {"air": false, "counter": false, "insulated_box": false}},
        "counter": {"properties": {"air": false, "insulated_box": false}},
        "insulated_box": {"properties": {"air": false}}
      },
      "properties": {
        "pit": {
          "description": "short: a generic cooker; needs air",
          "enum": ["ceramic", "drum", "kettle", "cabinet", "offset", "pellet"]
        },
        "oven": {"description": "short: a kitchen oven at this air temperature [°C]", "$ref": "#/$defs/signal"},
        "holding_oven": {"description": "short: an oven that holds finished meat at this temperature [°C]", "type": "number"},
        "humidity": {"description": "with holding_oven: relative humidity [-]", "type": "number"},
        "fan": {"description": "with oven: a fan moves the air", "type": "boolean"},
        "counter": {"description": "short: a kitchen counter in a room at this temperature [°C]", "type": "number"},
        "insulated_box": {
          "description": "short: a towel-lined insulated box",
          "type": "object", "additionalProperties": false,
          "properties": {
            "room": {"description": "temperature of the room [°C]", "type": "number"},
            "heat_capacity": {"description": "of what warms up with it [J/K]", "type": "number"},
            "loss": {"description": "to the room [W/K]", "type": "number"},
            "start": {"description": "temperature when the meat goes in [°C]", "type": "number"}
          }
        },
        "kind": {"description": "for labels and messages", "type": "string"},
        "air": {"description": "air temperature; with a box that of the room [°C]", "$ref": "#/$defs/signal"},
        "air_below": {
          "description": "air under the bottom face where it differs [°C]; the same if left out",
          "anyOf": [{"$ref": "#/$defs/signal"}, {"type": "null"}]
        },
        "radiant_bottom": {
          "description": "what the bottom face sees, above air temperature (coals) [K]",
          "type": "number"
        },
        "radiant_top": {"description": "what the top face sees, above air temperature [K]", "type": "number"},
        "view": {"description": "factor on the radiation exchange [-]", "type": "number"},
        "bottom": {"description": "at the bottom face", "$ref": "#/$defs/film"},
        "top": {"description": "at the top face", "$ref": "#/$defs/film"},
        "vapour_pressure": {"description": "of water in the air [Pa]", "$ref": "#/$defs/signal"},
        "pressure": {"description": "total [Pa]", "type": "number"},
        "ambient": {"description": "outside temperature, for lid openings [°C]", "type": "number"},
        "box": {
          "description": "an insulated box around the meat; none if left out",
          "anyOf": [{"$ref": "#/$defs/box"}, {"type": "null"}]
        },
        "pit_air": {
          "description": "vapour balance of the cooker's own air; the vapour pressure is given if left out",
          "anyOf": [{"$ref": "#/$defs/pit_air"}, {"type": "null"}]
        }
      }
    },
    "signal": {
      "description": "a quantity over time: one number if it is constant",
      "anyOf": [
        {"type": "number"},
        {
          "description": "straight lines between points, constant outside them, with ripple",
          "type": "object", "additionalProperties": false,
          "required": ["value"],
          "properties": {
            "time": {
              "description": "since the start of the cook, increasing [s]",
              "type": "array",
              "items": {"type": "number"},
              "minItems": 1
            },
            "value": {
              "description": "one for each time; one number if it is constant apart from the ripple",
              "anyOf": [{"type": "number"}, {"type": "array", "items": {"type": "number"}, "minItems": 1}]
            },
            "ripple_amplitude": {
              "description": "amplitude of a sine wave on top, in the unit of the value",
              "type": "number"
            },
            "ripple_period": {"description": "of the ripple [s]", "type": "number"},
            "measured": {
              "description": "a log: lid openings are in it already and are not applied again",
              "type": "boolean"
            }
          }
        }
      ]
    },
    "film": {
      "description": "how heat passes from the air to a face",
      "type": "object", "additionalProperties": false,
      "properties": {
        "kind": {
          "description": "natural: still air; forced: air moves along the face; given: the coefficient is known",
          "enum": ["given", "natural", "forced"]
        },
        "value": {"description": "film coefficient if given [W/m²K], air speed if forced [m/s]", "type": "number"},
        "length": {
          "description": "characteristic length: area / perimeter if natural, length along the stream if forced; 0: the piece's [m]",
          "type": "number"
        },
        "factor": {"description": "on what the correlation gives [-]", "type": "number"}
      }
    },
    "box": {
      "description": "an insulated box: air, liner and walls share one temperature",
      "type": "object", "additionalProperties": false,
      "properties": {
        "heat_capacity": {"description": "of what warms up with it [J/K]", "type": "number"},
        "loss": {"description": "to the room [W/K]", "type": "number"},
        "start": {"description": "temperature when the meat goes in [°C]", "type": "number"}
      }
    },
    "wrap": {
      "description": "what covers the meat",
      "anyOf": [
        {"enum": ["none", "butcher paper", "foil", "pan", "foil tent", "towels"]},
        {
          "description": "a wrap in full; a side left out is that of the known wrap of this name, otherwise bare",
          "type": "object", "additionalProperties": false,
          "properties": {
            "name": {"description": "for labels", "type": "string"},
            "bottom": {"$ref": "#/$defs/covering"},
            "top": {"$ref": "#/$defs/covering"},
            "ends": {
              "description": "of the end faces of a cross-section; below as the bottom, above as the top if left out",
              "anyOf": [{"$ref": "#/$defs/covering"}, {"type": "null"}]
            }
          }
        }
      ]
    },
    "covering": {
      "description": "what lies between one face and the air",
      "type": "object", "additionalProperties": false,
      "properties": {
        "vapour_resistance": {"description": "[s/m]", "type": "number"},
        "heat_resistance": {"description": "sheet, trapped air or steam [m²K/W]", "type": "number"},
        "emissivity": {"description": "of the outside; the meat's own if left out [-]", "type": ["number", "null"]},
        "juice_capacity": {
          "description": "liquid kept at the face before running off; as a bare face if left out [kg/m²]",
          "type": ["number", "null"]
        }
      }
    },
    "spritz": {
      "description": "liquid sprayed on at intervals",
      "type": "object", "additionalProperties": false,
      "properties": {
        "every": {"description": "[s]", "type": "number"},
        "first": {"description": "after the start of the stage [s]", "type": "number"},
        "amount": {"description": "[kg/m²]", "type": "number"},
        "temperature": {"description": "of the liquid [°C]", "type": "number"},
        "lid_open": {"description": "how long the lid stays open for it [s]", "type": "number"}
      }
    },
    "probe": {
      "description": "where a probe sits, and how it errs; without x and z at the place that its name says",
      "type": "object", "additionalProperties": false,
      "properties": {
        "name": {"description": "of its trace; 'flat' and 'point' are places of a cross-section", "type": "string"},
        "x": {"description": "of the tip, from the flat end [m]", "type": ["number", "null"]},
        "z": {"description": "of the tip, from the bottom face [m]", "type": ["number", "null"]},
        "tip": {"description": "length that the sensor averages over [m]", "type": "number"},
        "stem": {"description": "share of (air - meat) that the stem conducts to the tip [-]", "type": "number"}
      }
    },
    "lid_opening": {
      "description": "the lid opened once",
      "type": "object", "additionalProperties": false,
      "properties": {
        "at": {"description": "after the start of the stage [s]", "type": "number"},
        "duration": {"description": "[s]", "type": "number"}
      }
    }
  }
}
)json";
  // clang-format on
  return text;
}

} // namespace cook
