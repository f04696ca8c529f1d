/** What each part must bear, derived from the burst and the supply, with the margin that practice puts on top. */
import type { Metre } from "../../units/si.ts";
import { numberOf, type SheetSetting, type SheetSubject } from "./sheet.ts";
import { conductorWidth, radiusAfter } from "./spiral.ts";
import { lengthText, massText, runText, shown } from "./words.ts";

export interface PartLine {
  readonly group: string;
  readonly part: string;
  readonly count: number;
  /** As the file has it. */
  readonly inFile: string;
  /** What to ask of it. */
  readonly ask: string;
  readonly why: string;
}

/** Shares of a rating that practice uses. Common practice, no source; the findings grade by the same. */
const used = {
  film: 0.7,
  electrolytic: 0.95,
  blocking: 0.7,
  pulse: 0.9,
  fuse: 0.75,
  resistor: 0.5,
  ripple: 0.8,
} as const;
/** Preferred currents of fuse links, IEC 60127. */
const fuses = [0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10, 12.5, 16, 20, 25, 32];
/** Of copper at 20 °C [kg/m³]. From memory. */
const copperDensity = 8960;

/** Text of a value that was found, or that it was not. */
type Look = (id: string) => number | undefined;

const none = "no burst to reckon from";

/** The parts of the coil, in the order of its sections; those that the file does not have are left out. */
export function partLines(subject: SheetSubject, setting: SheetSetting): readonly PartLine[] {
  // a fault or a long note asks the most: the greater of the burst as set and the burst at the interrupter's limits
  const most: Look = (id) => {
    const own = numberOf(subject, id);
    const limit = subject.atLimits?.figures.get(id)?.value;
    return own === undefined ? limit : Math.max(own, limit ?? own);
  };
  return [
    ...secondaryLines(subject, setting, most),
    ...primaryLines(subject, setting, most),
    ...bankLines(subject, most),
    ...bridgeLines(subject, most),
    ...supplyLines(subject, most),
    ...senseLines(subject, most),
    ...earthLines(most),
  ];
}

function secondaryLines({ coil }: SheetSubject, setting: SheetSetting, most: Look): PartLine[] {
  const { former, wire, turns, length, coating } = coil.secondary;
  const wound: Metre = most("secondary.wireLength") ?? 0;
  const turn = most("winding.turnVoltage");
  const mass = (Math.PI / 4) * wire.bare ** 2 * wound * 1.05 * copperDensity;
  const size = (value: Metre) => lengthText(value, setting);
  return [
    {
      group: "Secondary",
      part: "magnet wire",
      count: 1,
      inFile: `${size(wire.bare)} bare, ${size(wire.overall)} over all`,
      ask: `${runText(wound * 1.05, setting)}, ${massText(mass, setting)}, in one piece`,
      why: `${turns} turns and 5 % to spare${turn === undefined ? "" : `; ${shown(turn, "V", 3)} from turn to turn at the peak`}`,
    },
    {
      group: "Secondary",
      part: "former",
      count: 1,
      inFile: `${size(former.outerDiameter)} outside`,
      ask: `dry tube, at least ${size(length + 0.04)} long`,
      why: "the winding and 20 mm of bare tube at each end; no carbon filler, no metal foil",
    },
    ...(coating
      ? [
          {
            group: "Secondary",
            part: "coating",
            count: 1,
            inFile: `${coating.material}, ${size(coating.thickness)}`,
            ask: `${Math.ceil(Math.PI * former.outerDiameter * length * coating.thickness * 1e6 * 1.5)}\u00a0cm³ of solids`,
            why: "area of the winding times the thickness, half as much again for what drips",
          },
        ]
      : []),
    ...coil.topload.map((load, n): PartLine => {
      const [kind = "", keys] = Object.entries(load)[0] ?? [];
      const sizes = Object.entries(keys as Record<string, number>).filter(([key]) => key !== "height");
      const breaks = most("topload.breakoutVoltage");
      return {
        group: "Secondary",
        part: `top load, ${kind}`,
        count: 1,
        inFile: sizes.map(([key, value]) => `${spaced(key)} ${size(value)}`).join(", "),
        ask: "smooth, no seam or edge outwards, joined to the winding's end",
        why:
          n > 0
            ? "the smallest curvature of them all decides where it breaks out"
            : breaks === undefined
              ? "its curvature decides where it breaks out"
              : `where the surface is clean, breakout is reckoned at ${shown(breaks, "V", 2)}`,
      };
    }),
  ];
}

/** `outerDiameter` → `outer diameter`. */
const spaced = (key: string) => key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

function primaryLines({ coil: { primary } }: SheetSubject, setting: SheetSetting, most: Look): PartLine[] {
  if (!primary) return [];
  const { turns, layers, conductor, strikeRing } = primary;
  const mean = (radiusAfter(primary, 0) + radiusAfter(primary, turns)) / 2;
  const run: Metre = 2 * Math.PI * mean * turns * layers.count;
  const peak = most("burst.peakPrimaryCurrent");
  const rms = most("burst.rmsPrimaryCurrent");
  const width = lengthText(conductorWidth(primary), setting);
  return [
    {
      group: "Primary",
      part: "tube" in conductor ? "copper tube" : "wire" in conductor ? "copper wire" : "printed board",
      count: 1,
      inFile:
        "trace" in conductor
          ? `trace ${width}, ${layers.count} ${layers.count === 1 ? "face" : "faces"}`
          : `${width} outside`,
      ask:
        "trace" in conductor
          ? `copper ${lengthText(conductor.trace.thickness, setting)}`
          : `${runText(run + 0.6, setting)}, soft`,
      why: `${shown(turns, "1")} turns${"trace" in conductor ? "" : " and leads"}; ${currents(peak, rms)}`,
    },
    ...(strikeRing
      ? [
          {
            group: "Primary",
            part: "strike ring",
            count: 1,
            inFile: `${lengthText(strikeRing.diameter, setting)} across, tube ${lengthText(strikeRing.tube, setting)}`,
            ask: `${runText(Math.PI * strikeRing.diameter, setting)}, split once, its own lead to the earth rod`,
            why: "a closed ring is a shorted turn; a strike must find earth before it finds the primary",
          },
        ]
      : []),
  ];
}

const currents = (peak: number | undefined, rms: number | undefined) =>
  peak === undefined ? none : `${shown(peak, "A", 3)} peak${rms === undefined ? "" : `, ${shown(rms, "A", 3)} r.m.s.`}`;

function bankLines({ coil: { tank } }: SheetSubject, most: Look): PartLine[] {
  if (!tank) return [];
  const { each, series, parallel, voltage, dissipation } = tank.bank;
  const peak = most("bank.voltageEach");
  const frequency = most("burst.frequency");
  const slope = most("bank.slope");
  const rms = most("bank.currentEach");
  const surge = most("bank.peakCurrentEach");
  return [
    {
      group: "Tank",
      part: "film capacitor, pulse type",
      count: series * parallel,
      inFile: `${shown(each, "F")}${voltage === undefined ? ", no voltage in the file" : `, ${shown(voltage, "V")}`}; ${series} in series, ${parallel} side by side`,
      ask:
        peak === undefined
          ? none
          : `${shown(peak / used.film, "V", 2)} d.c. or more, ${slope === undefined ? "" : `${shown(slope / 1e6, "V/µs", 2)}, `}${surge === undefined ? "" : `${shown(surge, "A", 3)} peak, `}${rms === undefined ? "" : `${shown(rms, "A", 2)} r.m.s. at ${frequency === undefined ? "the burst's frequency" : shown(frequency, "Hz", 3)}`}`,
      why:
        peak === undefined
          ? none
          : `${shown(peak, "V", 3)} peak on each at worst, used to 70 % of a d.c. rating; alternating voltage is rated lower, by the frequency: read that curve too${dissipation === undefined ? "" : `; tan δ of the file ${shown(dissipation, "%", 2)}`}`,
    },
  ];
}

function bridgeLines({ coil: { bridge } }: SheetSubject, most: Look): PartLine[] {
  if (!bridge) return [];
  const { switch: device, gate, heatsink, kind } = bridge;
  const count = kind === "half" ? 2 : 4;
  const bus = most("bus.peakVoltage");
  const peak = most("burst.peakPrimaryCurrent");
  const loss = most("switch.meanPower");
  const junction = most("switch.junctionPeak");
  const gateCurrent = most("gate.peakCurrent");
  const gatePower = most("gate.chargePower");
  const flux = most("gate.transformer.flux");
  const { transformer } = gate;
  return [
    {
      group: "Bridge",
      part: device.kind === "igbt" ? "switch, IGBT with diode" : "switch, MOSFET",
      count,
      inFile: `${shown(device.voltage, "V")}, ${shown(device.current, "A")}, pulse ${shown(device.pulse, "A")}`,
      ask:
        [
          bus === undefined ? undefined : `${shown(bus / used.blocking, "V", 2)} or more`,
          peak === undefined ? undefined : `pulse ${shown(peak / used.pulse, "A", 3)} or more`,
        ]
          .filter((one) => one !== undefined)
          .join(", ") || none,
      why: [
        bus === undefined
          ? undefined
          : `bus up to ${shown(bus, "V", 3)} on high mains, used to 70 % so that overshoot has room`,
        peak === undefined ? undefined : `primary peak ${shown(peak, "A", 3)} at worst, used to 90 %`,
        junction === undefined ? undefined : `junction reckoned up to ${junction.toFixed(0)}\u00a0°C`,
      ]
        .filter((one) => one !== undefined)
        .join("; "),
    },
    {
      group: "Bridge",
      part: "heatsink",
      count: 1,
      inFile: `${shown(heatsink.thermal, "K/W")} at ${shown(heatsink.ambient, "K")} of air`,
      ask: `${shown(heatsink.thermal, "K/W")} or less, earthed`,
      why:
        loss === undefined
          ? none
          : `${shown(loss, "W", 2)} mean from each switch, ${shown(count * loss, "W", 2)} together`,
    },
    {
      group: "Bridge",
      part: "gate resistor",
      count,
      inFile: shown(gate.resistor, "Ω"),
      ask:
        gatePower === undefined
          ? "pulse type"
          : `${shown(Math.max(gatePower / used.resistor, 0.25), "W", 2)} or more, pulse type`,
      why: `${gateCurrent === undefined ? "" : `${shown(gateCurrent, "A", 2)} peak; `}${gatePower === undefined ? none : `${shown(gatePower, "W", 2)} of gate charge at most, used to half`}`,
    },
    ...(transformer
      ? [
          {
            group: "Bridge",
            part: "gate transformer",
            count: 1,
            inFile: `${transformer.turns} turns on ${shown(transformer.coreArea, "m²")}, ${shown(transformer.fluxMax, "T")} at most`,
            ask: `turns × section of ${Math.ceil(((flux ?? transformer.fluxMax) * transformer.turns * transformer.coreArea * 1e6) / (0.8 * transformer.fluxMax))}\u00a0mm² or more, windings twisted, insulated for the bus`,
            why:
              flux === undefined
                ? "no frequency to reckon from"
                : `${shown(flux, "T", 3)} in its core, used to 80 % of ${shown(transformer.fluxMax, "T")}`,
          },
        ]
      : []),
  ];
}

function supplyLines({ coil: { supply } }: SheetSubject, most: Look): PartLine[] {
  if (!supply) return [];
  const { capacitors, mains, rectifier, inrush, fuse, control } = supply;
  const places = (rectifier === "doubler" ? 2 : 1) * capacitors.series;
  const each = most("bus.voltageEach");
  const bus = most("bus.peakVoltage");
  const ripple = most("bus.capacitorCurrent");
  const bleeder = most("bus.bleederPower");
  const discharge = most("bus.dischargeTime");
  const current = most("mains.currentRms");
  const crest = most("mains.currentPeak");
  const surge = most("mains.inrushPeak");
  const heat = most("mains.inrushHeat");
  const square = most("mains.inrushSquareTime");
  const least = current === undefined ? undefined : fuses.find((rating) => rating >= current / used.fuse);
  return [
    {
      group: "Supply",
      part: rectifier === "doubler" ? "rectifier diode of the doubler" : "rectifier bridge",
      count: rectifier === "doubler" ? 2 : 1,
      inFile: rectifier,
      ask:
        bus === undefined
          ? none
          : `${shown(bus / used.blocking, "V", 2)} reverse or more${surge === undefined ? "" : `, surge ${shown(surge, "A", 3)}`}${crest === undefined ? "" : `, ${shown(crest, "A", 2)} peak each half-wave`}`,
      why: `${rectifier === "doubler" ? "the whole bus stands across the diode that rests" : "the bus stands across the diodes that rest"}; used to 70 %`,
    },
    {
      group: "Supply",
      part: "bus capacitor",
      count: places * capacitors.parallel,
      inFile: `${Number((capacitors.each * 1e6).toPrecision(4))}\u00a0µF, ${shown(capacitors.voltage, "V")}`,
      ask:
        each === undefined
          ? none
          : `${shown(each / used.electrolytic, "V", 3)} or more${ripple === undefined ? "" : `, ripple ${shown(ripple / used.ripple, "A", 2)} or more`}`,
      why: `${each === undefined ? "" : `${shown(each, "V", 3)} on each at 10 % over the mains, used to 95 %`}${ripple === undefined ? "" : `; ${shown(ripple, "A", 2)} r.m.s. reckoned, used to 80 %`}`,
    },
    {
      group: "Supply",
      part: "bleeder",
      count: places,
      inFile: capacitors.bleeder === undefined ? "not in the file" : shown(capacitors.bleeder, "Ω"),
      ask:
        bleeder === undefined
          ? "one at each place of the string"
          : `${shown(bleeder / used.resistor, "W", 2)} or more${each === undefined ? "" : `, ${shown(each, "V", 3)} across it`}`,
      why:
        bleeder === undefined
          ? "without it the bus stays charged for hours"
          : `${shown(bleeder, "W", 2)} all the time, used to half${discharge === undefined ? "" : `; brings the bus to 60 V in ${shown(discharge, "s", 2)}, if it has not failed`}`,
    },
    {
      group: "Supply",
      part: "inrush thermistor",
      count: 1,
      inFile: inrush ? shown(inrush.ntc, "Ω") : "not in the file",
      ask:
        heat === undefined
          ? none
          : `${shown(heat, "J", 2)} or more${current === undefined ? "" : `, ${shown(current, "A", 2)} r.m.s.`}`,
      why:
        surge === undefined
          ? none
          : `${shown(surge, "A", 3)} peak into empty capacitors from cold; a warm one does not limit`,
    },
    {
      group: "Supply",
      part: "fuse, time-lag",
      count: 1,
      inFile: fuse === undefined ? "not in the file" : shown(fuse, "A"),
      ask:
        least === undefined
          ? none
          : `${shown(least, "A")} or the next above, ${shown(mains.voltage, "V")} a.c., high breaking capacity`,
      why: `${current === undefined ? "" : `${shown(current, "A", 2)} r.m.s. reckoned, used to 75 %`}${square === undefined ? "" : `; inrush ${shown(square, "A²s", 2)}`}; it protects wires from fire, not people`,
    },
    ...(control
      ? [
          {
            group: "Supply",
            part: "control transformer",
            count: 1,
            inFile: `${shown(control.transformer, "V")}, ${shown(control.current, "A")}`,
            ask: `rails of ${control.rails.map(({ volts, load }) => `${shown(volts, "V")} at ${shown(load, "A")}`).join(", ")}`,
            why:
              most("control.load") === undefined
                ? "the loads of the file, added up"
                : `the loads take ${shown(most("control.load") ?? 0, "%", 2)} of it`,
          },
        ]
      : []),
  ];
}

function senseLines({ coil: { feedback } }: SheetSubject, most: Look): PartLine[] {
  if (!feedback?.transformer) return [];
  const { ratio, burden } = feedback.transformer;
  const voltage = most("feedback.burdenVoltage");
  const rms = most("burst.rmsPrimaryCurrent");
  const primarySense = feedback.sense === "primaryCurrent";
  return [
    {
      group: "Feedback",
      part: "sense transformer",
      count: 1,
      inFile: `1 : ${ratio}`,
      ask: `${ratio} turns, insulated for the ${primarySense ? "bus and the tank" : "foot of the secondary"}`,
      why: voltage === undefined ? none : `${shown(voltage, "V", 3)} at its burden at the peak`,
    },
    {
      group: "Feedback",
      part: "burden",
      count: 1,
      inFile: shown(burden, "Ω"),
      ask:
        primarySense && rms !== undefined
          ? `${shown(Math.max(((rms / ratio) ** 2 * burden) / used.resistor, 0.25), "W", 2)} or more, no wire-wound`
          : "low inductance",
      why:
        feedback.overcurrent === undefined
          ? "the file has no trip"
          : `the trip of ${shown(feedback.overcurrent, "A")} is ${shown((feedback.overcurrent * burden) / ratio, "V", 3)} here`,
    },
  ];
}

function earthLines(most: Look): PartLine[] {
  const top = most("burst.peakTopVoltage");
  return [
    {
      group: "Earth",
      part: "rod, strap and clamp",
      count: 1,
      inFile: "not in the file",
      ask: "a rod of its own, wide copper strap, short and straight",
      why: `the base of the secondary${top === undefined ? "" : `, ${shown(top, "V", 2)} above it at the top,`} returns here and not through sockets`,
    },
  ];
}
