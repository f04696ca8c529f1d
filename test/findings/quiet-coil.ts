/** An invented coil that no rule has anything to say about: the ground that every hit and miss is a change of. */
export const quietCoil = `coilwright: 1
name: Quiet
site:
  air: { temperature: 20 °C, pressure: 1013 hPa, humidity: 50 % }
  ceiling: 6 m
  wall: 9 m
  people: [ { at: 8 m, height: 1.75 m } ]
  objects: [ { kind: rod, at: 5 m, height: 1 m, diameter: 12 mm, earthed: true } ]
secondary:
  former: { outerDiameter: 90 mm (measured) }
  wire: { bare: 0.3 mm, overall: 0.335 mm (datasheet) }
  turns: 1600
  length: 576 mm (measured)
  baseHeight: 120 mm
  coating: { material: polyurethane, thickness: 0.3 mm }
topload:
  - toroid: { outerDiameter: 122 mm, tubeDiameter: 16 mm, height: 709 mm }
primary:
  angle: 0°
  turns: 8
  tap: 6
  firstTurnDiameter: 140 mm
  pitch: 11 mm
  conductor: { tube: 6 mm }
  baseHeight: 120 mm
  strikeRing: { diameter: 320 mm, tube: 6 mm, height: 150 mm, earthed: true }
tank:
  bank: { each: 76.6 nF ± 1 % (measured), voltage: 2 kV, dissipation: 0.0006, series: 2, parallel: 1 }
  leads: { inductance: 0.3 µH (measured), resistance: 6 mΩ }
bridge:
  kind: half
  switch: { kind: igbt, voltage: 650 V, current: 50 A, pulse: 200 A, vce0: 0.95 V, rce: 16 mΩ, diode: { vf0: 0.9 V, rd: 14 mΩ },
            turnOff: { energy: 0.5 mJ, atCurrent: 50 A, atVoltage: 400 V }, thermal: [ [0.15 K/W, 1 ms], [0.35 K/W, 20 ms] ], junctionMax: 150 °C }
  heatsink: { thermal: 1 K/W, ambient: 25 °C }
  gate: { drive: 15 V, resistor: 6.8 Ω, charge: 150 nC }
supply:
  mains: 230 V 50 Hz
  rectifier: bridge
  capacitors: { each: 1000 µF, series: 1, parallel: 1, voltage: 450 V, esr: 80 mΩ, bleeder: 47 kΩ }
feedback:
  sense: primaryCurrent
  delay: 400 ns
  lead: 350 ns
  overcurrent: 128 A
interrupter:
  onTime: 80 µs
  rate: 150 Hz
  limits: { onTime: 120 µs, duty: 3 %, rate: 500 Hz, gap: 500 µs }
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
