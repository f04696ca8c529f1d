/** An invented coil that no rule has anything to say about once its burst is studied: the ground of every case about burst and driver. */
export const quietDriver = `coilwright: 1
name: Quiet driver
site:
  air: { temperature: 20 °C, pressure: 1013 hPa, humidity: 50 % }
  ceiling: 7 m
  wall: 10 m
  people: [ { at: 9 m, height: 1.75 m } ]
  objects: [ { kind: rod, at: 6 m, height: 1 m, diameter: 12 mm, earthed: true } ]
secondary:
  former: { outerDiameter: 90 mm (measured) }
  wire: { bare: 0.3 mm, overall: 0.335 mm (datasheet) }
  turns: 1600
  length: 576 mm (measured)
  baseHeight: 120 mm
  coating: { material: polyurethane, thickness: 0.3 mm }
topload:
  - toroid: { outerDiameter: 122 mm, tubeDiameter: 16 mm, height: 709 mm }
  - sphere: { diameter: 9 mm, height: 760 mm }
primary:
  angle: 0°
  turns: 14
  tap: 11.1
  firstTurnDiameter: 140 mm
  pitch: 9 mm
  conductor: { tube: 5 mm }
  baseHeight: 120 mm
  strikeRing: { diameter: 420 mm, tube: 6 mm, height: 160 mm, earthed: true }
tank:
  bank: { each: 40 nF ± 1 % (measured), voltage: 3 kV, dissipation: 0.0005, series: 4, parallel: 1 }
  leads: { inductance: 0.3 µH (measured), resistance: 6 mΩ }
bridge:
  kind: half
  switch: { kind: igbt, voltage: 650 V, current: 50 A, pulse: 200 A, vce0: 0.95 V, rce: 16 mΩ, diode: { vf0: 0.9 V, rd: 14 mΩ },
            turnOff: { energy: 0.5 mJ, atCurrent: 50 A, atVoltage: 400 V }, thermal: [ [0.15 K/W, 1 ms], [0.35 K/W, 20 ms] ], junctionMax: 150 °C }
  heatsink: { thermal: 1 K/W, ambient: 25 °C }
  gate: { drive: 15 V, resistor: 6.8 Ω, charge: 90 nC, transformer: { turns: 12, coreArea: 40 mm², fluxMax: 200 mT, leakage: 0.1 µH } }
  deadTime: 120 ns
supply:
  mains: 230 V 50 Hz
  rectifier: bridge
  capacitors: { each: 110 µF, series: 1, parallel: 1, voltage: 450 V, esr: 300 mΩ, bleeder: 150 kΩ }
  inrush: { ntc: 22 Ω }
  fuse: 2 A
  control: { transformer: 15 V, current: 1 A, regulation: 15 %, reservoir: 2200 µF, rails: [ { volts: 12 V, dropout: 2 V, load: 120 mA }, { volts: 5 V, dropout: 2 V, load: 60 mA } ] }
feedback:
  sense: primaryCurrent
  transformer: { ratio: 1000, burden: 10 Ω }
  delay: 350 ns
  lead: 460 ns
  overcurrent: 50 A
interrupter:
  onTime: 50 µs
  rate: 100 Hz
  limits: { onTime: 55 µs, duty: 1 %, rate: 130 Hz, gap: 1 ms }
show:
  barrier: 8.6 m
  duration: 600 s
  room: { width: 18 m, depth: 18 m, airing: changed }
  operator: { at: 6 m, bearing: 90° }
  second: { at: 6.5 m, bearing: 95° }
  breaker: { at: 6.6 m, bearing: 96° }
  deadMan: true
  exit: { at: 8 m, bearing: 180° }
  earth: { at: 2 m, bearing: 180°, lead: 3 m }
  acknowledged: [ arc, touch, storedEnergy, mains, implants, noise, air, fire, radio ]
`;
