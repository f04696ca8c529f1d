/** The text of a new coil file: a small coil that reads, solves and is to be changed. Invented; every number is there to be replaced. */
export const starter = `# A coil file. Every quantity is a number with a unit, and may carry a tolerance and where it
# comes from: 110 mm ± 0.3 mm (measured). Origins: measured, datasheet, drawn, guessed.
# coilwright check FILE says what is wrong, coilwright open FILE draws it.
coilwright: 1
name: New coil

site:
  air: { temperature: 20 °C, pressure: 1013 hPa, humidity: 50 % }
  ceiling: 2.6 m                 # above the ground plane
  wall: 4.6 m                    # nearest wall, from the coil's axis
  people: [ { at: 4 m, height: 1.75 m } ]   # everybody who may be in the room

secondary:
  former: { outerDiameter: 75 mm }
  wire: { bare: 0.2 mm, overall: 0.23 mm (datasheet) }
  turns: 1150
  length: 272 mm                 # of the winding
  baseHeight: 120 mm             # lowest turn above the ground plane
  coating: { material: polyurethane, thickness: 0.3 mm }

topload:
  - toroid: { outerDiameter: 200 mm, tubeDiameter: 50 mm, height: 432 mm }

primary:
  angle: 0°                      # 0 flat spiral, 90 helix, between: cone
  turns: 8
  tap: 6                         # turns in circuit
  firstTurnDiameter: 130 mm      # of the centre line
  pitch: 11 mm                   # centre to centre
  conductor: { tube: 6 mm }
  baseHeight: 120 mm
  strikeRing: { diameter: 310 mm, tube: 6 mm, height: 150 mm, earthed: true }

tank:
  bank: { each: 68 nF ± 5 %, voltage: 2 kV, dissipation: 0.0006, series: 2, parallel: 1 }
  leads: { inductance: 0.3 µH (guessed), resistance: 6 mΩ }

bridge:
  kind: half                     # or full
  switch: { kind: igbt, voltage: 650 V, current: 50 A, pulse: 200 A, vce0: 0.95 V, rce: 16 mΩ, diode: { vf0: 0.9 V, rd: 14 mΩ },
            turnOff: { energy: 0.5 mJ, atCurrent: 50 A, atVoltage: 400 V }, thermal: [ [0.15 K/W, 1 ms], [0.35 K/W, 20 ms] ], junctionMax: 150 °C }
  heatsink: { thermal: 1 K/W, ambient: 25 °C }
  gate: { drive: 15 V, resistor: 6.8 Ω, charge: 150 nC }

supply:
  mains: 230 V 50 Hz
  rectifier: bridge              # or doubler
  capacitors: { each: 1000 µF, series: 1, parallel: 1, voltage: 450 V, esr: 80 mΩ, bleeder: 47 kΩ }

feedback:
  sense: primaryCurrent
  delay: 400 ns
  lead: 350 ns
  overcurrent: 100 A

interrupter:
  onTime: 80 µs
  rate: 150 Hz
  limits: { onTime: 120 µs, duty: 3 %, rate: 500 Hz, gap: 500 µs }
`;
