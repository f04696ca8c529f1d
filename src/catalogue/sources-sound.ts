/** What the sound of sparks and the files of music stand on, by key; an entry of `sources` each. */
import type { Source } from "./sources.ts";

export const soundSources = {
  "midi-1": {
    author: "MIDI Manufacturers Association",
    title: "MIDI 1.0 detailed specification",
    standing: "memory",
    says: "channel voice and mode messages, controllers, registered parameters 0 to 2, velocity 0 as note-off",
  },
  "midi-file-1": {
    author: "MIDI Manufacturers Association",
    title: "Standard MIDI Files 1.0",
    standing: "secondary",
    says: "chunks, formats 0 to 2, division, variable-length numbers, running status, tempo and end-of-track events",
  },
  "midi-rp-15": {
    author: "MIDI Manufacturers Association",
    title: "Recommended practice 15, Response to reset all controllers",
    standing: "memory",
    says: "expression, pedals, bend and parameter selection go back to their rest; volume and tuning stay",
  },
  "spark-n-wave": {
    author: "W. M. Wright",
    title: "Propagation in air of N waves produced by sparks, Journal of the Acoustical Society of America 73, p. 1948",
    year: 1983,
    where: "abstract",
    standing: "secondary",
    says: "sparks of 0.5 to 1 cm and 0.01 to 0.1 J send out N waves, which lengthen slowly with distance",
  },
  "thunder-spectrum": {
    author: "A. A. Few",
    title: "Power spectrum of thunder, Journal of Geophysical Research 74, p. 6926",
    year: 1969,
    standing: "memory",
    says: "the spectrum of a suddenly heated channel peaks at 0.63·c·√(p/E′), with E′ the energy per length and p the pressure of the air",
  },
  "heat-as-sound": {
    author: "textbooks of acoustics",
    title: "Sound of an unsteady source of heat",
    standing: "memory",
    says: "far away the pressure is (γ − 1)/(4π·c²·r) times the rate of change of the heating power",
  },
  "spark-preview": {
    author: "this project",
    title: "A preview of how pulses sound: a push of air where the heating begins, a pull where it stops",
    where: "docs/notation.md",
    standing: "model",
    says: "shape and spacing of the clicks; no level, no room, no branching of the streamer",
  },
} as const satisfies Record<string, Source>;
