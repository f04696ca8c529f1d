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
  - sphere: { diameter: 6 mm, height: 500 mm }     # a small ball on a stalk: here the spark is to begin

primary:
  angle: 0°                      # 0 flat spiral, 90 helix, between: cone
  turns: 14
  tap: 10.6                      # turns in circuit
  firstTurnDiameter: 125 mm      # of the centre line
  pitch: 8 mm                    # centre to centre
  conductor: { tube: 5 mm }
  baseHeight: 120 mm
  strikeRing: { diameter: 370 mm, tube: 6 mm, height: 155 mm, earthed: true }

tank:
  # Three capacitors in a string: each takes a third of the voltage.
  bank: { each: 33 nF ± 5 %, voltage: 3 kV, dissipation: 0.0006, series: 3, parallel: 1 }
  leads: { inductance: 0.3 µH (guessed), resistance: 6 mΩ }

bridge:
  kind: half                     # or full
  switch: { kind: igbt, voltage: 650 V, current: 50 A, pulse: 200 A, vce0: 0.95 V, rce: 16 mΩ, diode: { vf0: 0.9 V, rd: 14 mΩ },
            turnOff: { energy: 0.5 mJ, atCurrent: 50 A, atVoltage: 400 V }, thermal: [ [0.15 K/W, 1 ms], [0.35 K/W, 20 ms] ], junctionMax: 150 °C }
  heatsink: { thermal: 1 K/W, ambient: 25 °C }
  gate: { drive: 15 V, resistor: 6.8 Ω, charge: 90 nC, transformer: { turns: 12, coreArea: 40 mm², fluxMax: 200 mT, leakage: 0.1 µH } }
  deadTime: 120 ns               # between one side off and the other on

supply:
  mains: 230 V 50 Hz
  rectifier: bridge              # or doubler
  capacitors: { each: 330 µF, series: 1, parallel: 1, voltage: 450 V, esr: 150 mΩ, bleeder: 68 kΩ }
  inrush: { ntc: 10 Ω }
  fuse: 2 A                      # time-lag
  control:                       # the low-voltage supply of driver and interrupter
    transformer: 15 V
    current: 1 A
    regulation: 15 %
    reservoir: 2200 µF
    rails: [ { volts: 12 V, dropout: 2 V, load: 120 mA }, { volts: 5 V, dropout: 2 V, load: 60 mA } ]

feedback:
  sense: primaryCurrent
  transformer: { ratio: 1000, burden: 10 Ω }
  delay: 350 ns
  lead: 480 ns                   # compensation that acts against the delay
  overcurrent: 50 A

interrupter:
  onTime: 50 µs
  rate: 120 Hz
  limits: { onTime: 70 µs, duty: 2 %, rate: 200 Hz, gap: 500 µs }
`;
