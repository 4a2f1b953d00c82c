/** The two sizes of paper, and which of them a place uses. */
export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

interface Size {
  readonly widthMm: number;
  readonly heightMm: number;
}

const SIZES: Readonly<Record<Paper, Size>> = {
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
};

/** Margins that every printer can do. */
export const MARGIN_MM = 7;
/** The line at the head of every side: build, what is on it, plan, number. */
export const SIDE_HEAD_MM = 5.5;
export const SIDE_HEAD_PT = 8.5;
/** Two lines of this, 1.1 high, take no more than the height. */
export const SIDE_HEAD_TWO_LINES_PT = 7;
/** Between its left and its right part. */
export const SIDE_HEAD_GAP_MM = 6;
/** The line at the foot: cautions defer to data sheets and trained people. */
export const SIDE_FOOT_MM = 4;
/** Kept free above the foot, for a font that runs a little wider than reckoned. */
const SPARE_MM = 2;

/** Room for the sheets on one side, mm. */
export function roomOf(paper: Paper, landscape: boolean): Size {
  const { widthMm, heightMm } = sizeOf(paper, landscape);
  return {
    widthMm: widthMm - 2 * MARGIN_MM,
    heightMm: heightMm - 2 * MARGIN_MM - SIDE_HEAD_MM - SIDE_FOOT_MM - SPARE_MM,
  };
}

export function sizeOf(paper: Paper, landscape: boolean): Size {
  const { widthMm, heightMm } = SIZES[paper];
  return landscape ? { widthMm: heightMm, heightMm: widthMm } : { widthMm, heightMm };
}

/**
 * Zones of the countries that use Letter: United States, Canada, Mexico, Central America, Colombia,
 * Venezuela, Chile, the Philippines. From memory of the Unicode territory data (paper size US-Letter).
 */
const A4_IN_AMERICA =
  /^America\/(Argentina|Sao_Paulo|Bahia|Belem|Boa_Vista|Campo_Grande|Cuiaba|Fortaleza|Maceio|Manaus|Noronha|Porto_Velho|Recife|Rio_Branco|Santarem|Araguaina|Eirunepe|Buenos_Aires|Lima|La_Paz|Montevideo|Asuncion|Guayaquil|Guyana|Paramaribo|Cayenne|Nuuk|Godthab|Danmarkshavn|Scoresbysund|Thule|Miquelon|Jamaica|Port_of_Spain|Barbados|Martinique|Guadeloupe|Curacao|Aruba)/;
const LETTER_ELSEWHERE =
  /^(Pacific\/(Honolulu|Guam|Easter)|Asia\/Manila|US\/|Canada\/|Mexico\/|Chile\/)/;

/** The paper of a place, by its time zone; the document may say another. */
export const paperOf = (zone: string): Paper =>
  LETTER_ELSEWHERE.test(zone) || (zone.startsWith('America/') && !A4_IN_AMERICA.test(zone))
    ? 'letter'
    : 'a4';
