/** A picture as a file: SVG with its font, a series of PNG in a ZIP, or a film. */
import boldless from "@fontsource/b612/files/b612-latin-400-normal.woff2?url";
import { zipSync } from "fflate";
import { type Picture, stage } from "../../views/pictures/picture.ts";
import { type PictureTheme, pictureSvg } from "../../views/pictures/svg.ts";

let font: Promise<string> | undefined;

/** The font as a data address: a picture in a file cannot fetch one. */
function fontAddress(): Promise<string> {
  font ??= fetch(boldless)
    .then((response) => response.blob())
    .then(
      (blob) =>
        new Promise<string>((done, failed) => {
          const reader = new FileReader();
          reader.onload = () => done(String(reader.result));
          reader.onerror = () => failed(reader.error);
          reader.readAsDataURL(blob);
        }),
    );
  return font;
}

export async function svgFile(picture: Picture, theme: PictureTheme, phase: number): Promise<Blob> {
  return new Blob([pictureSvg(picture, theme, { phase, font: await fontAddress() })], { type: "image/svg+xml" });
}

/** Size of PNG and film; the picture itself is 16 : 9. */
const width = 1280;
const height = (width * stage.height) / stage.width;

async function painter(picture: Picture, theme: PictureTheme) {
  const address = await fontAddress();
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  const pen = canvas.getContext("2d");
  if (pen === null) throw new Error("this browser gives no canvas to draw on");
  const paint = async (phase: number): Promise<void> => {
    const image = new Image();
    image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(pictureSvg(picture, theme, { phase, font: address }))}`;
    await image.decode();
    pen.drawImage(image, 0, 0, width, height);
  };
  return { canvas, paint };
}

interface Making {
  readonly picture: Picture;
  readonly theme: PictureTheme;
  /** 0 to 1. */
  readonly tell: (done: number) => void;
  readonly signal: AbortSignal;
}

/** Frames of one round in the series. */
const frames = 60;

/** @throws DOMException AbortError  given up */
export async function pngSeries({ picture, theme, tell, signal }: Making): Promise<Blob> {
  const { canvas, paint } = await painter(picture, theme);
  const files: Record<string, Uint8Array> = {};
  for (let n = 0; n < frames; n++) {
    signal.throwIfAborted();
    await paint(n / frames);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/png"));
    if (blob === null) throw new Error("this browser makes no PNG of a canvas");
    files[`${picture.id}-${String(n + 1).padStart(3, "0")}.png`] = new Uint8Array(await blob.arrayBuffer());
    tell((n + 1) / frames);
  }
  // PNG is compressed already.
  return new Blob([new Uint8Array(zipSync(files, { level: 0 }))], { type: "application/zip" });
}

export const canFilm = (): boolean =>
  typeof MediaRecorder !== "undefined" && MediaRecorder.isTypeSupported("video/webm");

/** One round, recorded as it plays. @throws DOMException AbortError  given up */
export async function film({ picture, theme, tell, signal }: Making): Promise<Blob> {
  const { canvas, paint } = await painter(picture, theme);
  await paint(0);
  const recorder = new MediaRecorder(canvas.captureStream(30), { mimeType: "video/webm", videoBitsPerSecond: 6e6 });
  const pieces: Blob[] = [];
  recorder.ondataavailable = ({ data }) => pieces.push(data);
  const stopped = new Promise<void>((done) => {
    recorder.onstop = () => done();
  });
  recorder.start();
  const began = performance.now();
  try {
    for (let part = 0; part < 1; part = (performance.now() - began) / 1000 / picture.round) {
      signal.throwIfAborted();
      await paint(part);
      tell(part);
      await new Promise(requestAnimationFrame);
    }
  } finally {
    recorder.stop();
    await stopped;
  }
  return new Blob(pieces, { type: "video/webm" });
}
