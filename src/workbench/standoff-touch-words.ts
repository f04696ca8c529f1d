/** What is said beside the spectrum of a touch: the ways it kills first, what things in the hand change, and what the page is not. */

export const touchFirst: readonly string[] = [
  "An arc from the primary or a failed winding puts tank or mains current on the secondary: a streamer that reaches a person is then a conductor for it.",
  "A lost or broken earth lifts the foot of the winding, the driver and everything bonded to them.",
  "The bus holds its energy behind the plug; the mains is on the bridge while it runs.",
  "A residual-current device does not act on the secondary, and radio frequency can blind or trip it.",
];

export const touchObjects: readonly { readonly name: string; readonly says: string }[] = [
  {
    name: "metal rod in the hand",
    says: "moves the hot root of the arc from the skin to the rod, and spreads the current over the grip: it hurts less and passes the same current through arm, chest and feet; where the grip slips, an arc burns under it",
  },
  {
    name: "earthed rod on a long handle",
    says: "gives the current a path beside the body, as long as lead and clamp hold; a lead that is long or coiled has a voltage on it at this frequency",
  },
  {
    name: "earthed cage",
    says: "carries the current outside only where it is closed on all sides, bonded, and nobody inside can reach through it; a gap, a poor joint or a hand on the mesh undoes that, and only a qualified person can say so of one cage",
  },
  {
    name: "rubber glove or shoe",
    says: "passes radio-frequency current through its capacitance, a large area of it, and is pierced by the peak voltage; its rating is for mains frequency",
  },
  {
    name: "dry hand or fingertip",
    says: "makes a small contact: the current stands in a spot, which chars before it is felt; from about 300 kHz up warmth comes in place of tingling",
  },
];

export const touchIsNot: readonly string[] = [
  "This page is no permission to touch anything, at any setting.",
  "It is not a margin: thresholds are of single studies, of healthy people, of contact without a spark.",
  "It gives no probability of fibrillation: above 1 kHz no such threshold is published, and pulses at 50–1000 Hz add up.",
  "The asymmetry of the arc is not known: three are shown, and the truth may lie outside them.",
  "The skin effect does not protect: the depth in muscle is metres, a limb is under 0.1 m thick, and the current fills it.",
];
