/** The spectrum of a burst train: lines at the repetition's distance under a lobe as wide as the burst is short. */
import { formatQuantity } from "../../units/format.ts";
import { type Box, frame, line, text } from "./marks.ts";
import type { Mark, Picture, Point } from "./picture.ts";

export interface TrainNumbers {
  readonly carrier: number;
  readonly onTime: number;
  readonly rate: number;
}

/**
 * A square burst of a steady carrier: lines at f₀ ± n·rate, in the ratio |sin(πnD)/(πnD)| with D = on-time · rate.
 * @source fourier-series of a gated sine
 */
export function trainSpectrum({ carrier, onTime, rate }: TrainNumbers): Picture {
  const lobe = 1 / onTime;
  const lines = Math.max(1, Math.round((2 * lobe) / rate));
  return {
    id: "train-spectrum",
    title: "What a train of bursts is made of",
    caption: [
      `Bursts of ${formatQuantity(onTime, "s", { digits: 3 })}, ${formatQuantity(rate, "Hz", { digits: 3 })} of them a second, on a carrier of ${formatQuantity(carrier, "Hz")}: not one line but about ${lines} that count.`,
      `They stand ${formatQuantity(rate, "Hz", { digits: 3 })} apart; the lobe reaches ${formatQuantity(lobe, "Hz", { digits: 3 })} to either side: a shorter burst spreads further.`,
      "At the repetition rate itself an even train has no line. A spark conducts unevenly and puts one there, where nerves answer best.",
    ],
    round: 10,
    still: 0.25,
    at: (phase) => {
      const part = 0.6 + 0.4 * Math.sin(2 * Math.PI * phase);
      const now = onTime * part;
      return [
        ...train({ left: 100, top: 190, width: 1400, height: 150 }, { onTime: now, rate }),
        text([100, 385], `on-time ${formatQuantity(now, "s", { digits: 3 })}`, { tone: "electric" }),
        text([1500, 385], `period ${formatQuantity(1 / rate, "s", { digits: 3 })}`, { anchor: "end", tone: "soft" }),
        ...spectrum({ left: 100, top: 430, width: 1400, height: 250 }, { onTime: now, rate, carrier, span: 3 * lobe }),
      ];
    },
  };
}

/** Two periods, the burst drawn at least so wide that it is seen. */
function train(box: Box, { onTime, rate }: { onTime: number; rate: number }): Mark[] {
  const period = box.width / 2;
  const width = Math.max(14, onTime * rate * period);
  const bursts = [0.12, 1.12].map((place): Mark => {
    const left = box.left + place * period;
    const points: Point[] = [];
    for (let step = 0; step <= 160; step++) {
      const x = step / 160;
      points.push([left + x * width, box.top + box.height / 2 - 0.44 * box.height * Math.sin(2 * Math.PI * 8 * x)]);
    }
    return line("electric", points, 2);
  });
  const middle = box.top + box.height / 2;
  return [
    frame(box),
    line(
      "hair",
      [
        [box.left, middle],
        [box.left + box.width, middle],
      ],
      2,
    ),
    ...bursts,
  ];
}

const sinc = (x: number): number => (Math.abs(x) < 1e-9 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));

function spectrum(
  box: Box,
  { onTime, rate, carrier, span }: { onTime: number; rate: number; carrier: number; span: number },
): Mark[] {
  const foot = box.top + box.height;
  const middle = box.left + box.width / 2;
  const x = (away: number) => middle + (away / span) * (box.width / 2);
  // Where lines would stand closer than the eye parts them, every so many is drawn; their envelope stays true.
  const stride = Math.max(1, Math.ceil((5 * span * 2) / (rate * box.width)));
  const marks: Mark[] = [frame(box)];
  for (let n = -Math.floor(span / rate); n <= span / rate; n++) {
    if (n % stride !== 0) continue;
    const height = 0.92 * box.height * Math.abs(sinc(n * rate * onTime));
    marks.push(
      line(
        "magnetic",
        [
          [x(n * rate), foot],
          [x(n * rate), foot - height],
        ],
        2,
      ),
    );
  }
  const label = (away: number, words: string) =>
    text([x(away), foot + 36], words, { size: 22, anchor: "middle", tone: "soft" });
  return [
    ...marks,
    label(0, formatQuantity(carrier, "Hz")),
    label(-(span * 2) / 3, `−${formatQuantity((span * 2) / 3, "Hz", { digits: 3 })}`),
    label((span * 2) / 3, `+${formatQuantity((span * 2) / 3, "Hz", { digits: 3 })}`),
  ];
}
