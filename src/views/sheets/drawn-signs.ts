/**
 * Signs that the sheets' fonts lack, drawn as strokes of a pen: em units, base line at 0, y up.
 *
 * Each is a list of SVG paths in thousandths of an em and an advance. The pen is as thick as a stem of the font.
 */
export interface DrawnSign {
  readonly advance: number;
  readonly path: string;
}

export const penWidth = { regular: 82, bold: 132 } as const;

export const drawnSigns: Readonly<Record<string, DrawnSign>> = {
  Ω: {
    advance: 760,
    path: "M80 48H290V110C190 180 120 290 120 420C120 600 230 705 380 705C530 705 640 600 640 420C640 290 570 180 470 110V48H680",
  },
  Δ: { advance: 720, path: "M80 48H640L360 690L80 48Z" },
  π: { advance: 640, path: "M70 500H570M190 500V48M450 500V130C450 70 480 48 540 48" },
  μ: {
    advance: 620,
    path: "M120 -190V500M120 180C120 90 170 48 260 48C380 48 450 130 450 230M450 500V120C450 70 480 48 540 48",
  },
  "≤": { advance: 640, path: "M550 590L100 390L550 190M100 60H550" },
  "≥": { advance: 640, path: "M90 590L540 390L90 190M90 60H540" },
  "≈": {
    advance: 640,
    path: "M80 400C160 490 240 480 320 430C400 380 480 370 560 460M80 190C160 280 240 270 320 220C400 170 480 160 560 250",
  },
  "√": { advance: 640, path: "M60 340L150 380L290 48L470 800H620" },
  "→": { advance: 900, path: "M80 350H790M590 550L800 350L590 150" },
  "∞": {
    advance: 900,
    path: "M450 350C380 230 320 190 240 190C150 190 90 260 90 350C90 440 150 510 240 510C320 510 380 470 450 350C520 230 580 190 660 190C750 190 810 260 810 350C810 440 750 510 660 510C580 510 520 470 450 350Z",
  },
  δ: {
    advance: 600,
    path: "M480 690H270C210 690 200 620 250 580L400 470C470 420 500 350 500 270C500 130 420 48 300 48C180 48 100 130 100 270C100 400 180 480 300 480C340 480 380 470 410 450",
  },
  τ: { advance: 520, path: "M60 500H460M260 500V130C260 70 290 48 350 48" },
  λ: { advance: 600, path: "M110 690H180C230 690 250 660 270 600L500 48M310 480L100 48" },
  ω: {
    advance: 760,
    path: "M210 500C130 450 100 370 100 270C100 130 150 48 230 48C320 48 380 120 380 250V380M380 250C380 120 440 48 530 48C610 48 660 130 660 270C660 370 630 450 550 500",
  },
};
