/** The words by which headers name the time axis, the sample interval and the rows. Several languages; common practice, no source. */

/** A column or key that is the time. */
export const timeWords =
  /^(?:x|t|time|times|time[ _]?(?:base|stamps?|axis)|elapsed(?:[ _]?time)?|(?:unix|epoch)(?:[ _]?time)?|seconds?|zeit|temps|tiempo|tempo|tijd|tid|czas|čas|aika|zaman|время|час|时间|時間|x-?axis)$/i;
/** A column's name that says no more than that something was measured. */
export const generalWords =
  /^(?:|y|y-?axis|volts?|voltage|amperes?|current|amplitude|values?|\[?(?:data|samples?)\]?|spannung)$/i;
/** A column that numbers its rows. */
export const indexWords = /^(?:#|no\.?|nr\.?|n|i|index|idx|sample|samples|sequence|seq|point|points|row|record)$/i;

export type HeaderKey = "interval" | "rate" | "start" | "rows" | "source" | "verticalUnit" | "horizontalUnit" | CodeKey;
/** How codes of a converter become samples. `offset` may be a level or a voltage. */
export type CodeKey = "increment" | "origin" | "reference" | "offset";

const keys: readonly (readonly [HeaderKey, RegExp])[] = [
  [
    "interval",
    /^(?:(?:horizontal |x |x-|time )?(?:sampl(?:e|ing) ?(?:interval|period|time|step)|increment|incr?|interval|resolution)|x ?(?:incr?(?:ement)?|step)|dt|delta ?(?:t|x|time)|Δt|time ?(?:step|per sample)|abtastintervall|abtastzeit)$/i,
  ],
  [
    "rate",
    /^(?:(?:sampl(?:e|ing) ?)?rate|sampl(?:e|ing) ?freq(?:uency)?|f ?s|samples? ?(?:per|\/) ?s(?:ec(?:ond)?)?|abtastrate)$/i,
  ],
  [
    "start",
    /^(?:start|start ?time|x ?(?:origin|zero|start|offset)|t ?0|first ?(?:point|sample|time)|time ?(?:origin|zero))$/i,
  ],
  [
    "rows",
    /^(?:record ?length|(?:memory|data|waveform) ?(?:length|size|points)|(?:number|no\.?|nr) ?of ?(?:points|samples|rows)|points|samples)$/i,
  ],
  ["source", /^(?:source|channel|trace)$/i],
  ["verticalUnit", /^(?:vertical ?units?|y ?units?|units?)$/i],
  [
    "increment",
    /^(?:(?:vertical|y|volt(?:age)?s?|amplitude)[ -]?(?:incr?(?:ement)?|step|mult(?:iplier)?)|(?:volts?|v) ?per ?(?:code|count|bit|lsb|level)|lsb)$/i,
  ],
  ["origin", /^(?:vertical|y|volt(?:age)?)[ -]?(?:origin|zero)$/i],
  ["offset", /^(?:(?:vertical|y|volt(?:age)?|code|adc)[ -]?off(?:set)?|offset)$/i],
  ["reference", /^(?:(?:vertical|y)[ -]?ref(?:erence)?|(?:zero|reference|middle)(?: ?(?:level|code))?)$/i],
  ["horizontalUnit", /^(?:horizontal ?units?|x ?units?|time ?units?)$/i],
];

/** What a key of the header is about; the key is cleaned of `:`, `=`, `_` and a unit in brackets first. */
export function headerKey(text: string): { key: HeaderKey; unit: string } | undefined {
  const unit = /[([]\s*([^()[\]]*?)\s*[)\]]\s*[:=]?\s*$/.exec(text)?.[1] ?? "";
  const plain = text
    .replace(/[([][^()[\]]*[)\]]/g, "")
    .replace(/[_]+/g, " ")
    .replace(/[:=#;]+/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  for (const [key, pattern] of keys) if (pattern.test(plain)) return { key, unit };
  return undefined;
}
