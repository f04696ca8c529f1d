/** Advance widths of the sheets' fonts, read from the font files; a test compares them again. */

/** Units of the font in one em. */
export const unitsPerEm = 2000;

type WidthTable = readonly (readonly [advance: number, characters: string])[];

export const regularWidths: WidthTable = [
  [400, "'|¦"],
  [500, ",;·′"],
  [600, ".:Iij°²³¹ÌÍÎÏìíîï"],
  [700, " !l\u00a0¡‘’‚"],
  [800, '"frtªº″'],
  [900, "()-J[s‹›"],
  [1000, "=]cz¢§“”„↑↓"],
  [1042, "ç"],
  [1050, "a"],
  [1100, "$*/?FLS\\_`ekvxy£¨©®¯´¸¿àáâãäåèéêë÷ýÿˆ˚˜–−"],
  [1200, "+CEKPTYZbdghnopqu}¤¥±ÈÉÊËÝñòóôõöøùúûüþ•"],
  [1298, "{"],
  [1300, "0123456789<>ABDGRVXµÀÁÂÃÄÅÇÐÞßð"],
  [1400, "&HU«¶»ÙÚÛÜ€"],
  [1500, "N^w~¼½¾Ñ…"],
  [1600, "OQÒÓÔÕÖ×Ø"],
  [1700, "#¬Ææ™"],
  [1800, "%Mm"],
  [1900, "Wœ"],
  [2000, "@Œ"],
  [2100, "—"],
];

export const boldWidths: WidthTable = [
  [400, "'|¦"],
  [500, ",;·′"],
  [600, ".:Iij°²³¹ÌÍÎÏìíîï"],
  [700, " !l\u00a0¡‘’‚"],
  [800, '"frtªº″'],
  [900, "()-J[s‹›"],
  [1000, "=]cz¢§“”„↑↓"],
  [1042, "ç"],
  [1050, "a"],
  [1100, "$*/?FLS\\_`ekvxy£¨©®¯´¸¿àáâãäåèéêë÷ýÿˆ˚˜–−"],
  [1200, "+CEKPTYZbdghnopqu}¤¥±ÈÉÊËÝñòóôõöøùúûüþ•"],
  [1298, "{"],
  [1300, "0123456789<>ABDGRVXµÀÁÂÃÄÅÇÐÞßð"],
  [1400, "&HU«¶»ÙÚÛÜ€"],
  [1500, "N^w~¼½¾Ñ…"],
  [1600, "OQÒÓÔÕÖ×Ø"],
  [1700, "#¬Ææ™"],
  [1800, "%Mm"],
  [1900, "Wœ"],
  [2000, "@Œ"],
  [2100, "—"],
];
