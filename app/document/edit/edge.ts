/** How the edge of the part is closed, as one choice. */
import { change, type Change } from './change.ts';
import { layupStageId, stageId } from '../ids.ts';
import { getIn, setIn, type Draft } from './path.ts';

export const EDGE_WAYS = ['as-it-comes', 'at-once', 'after-night', 'potted'] as const;
export type EdgeWay = (typeof EDGE_WAYS)[number];

/** Section of a rim that is chosen before its size is known: 15 mm in, through a core of 20 mm. */
const USUAL_RIM = { widthMm: 15, depthMm: 20 };

/** The way that a document has it closed. */
export function edgeWayOf(document: Draft): EdgeWay {
  const edge = document.part?.edge ?? null;
  if (edge === null) return 'as-it-comes';
  return edge.rim ? 'potted' : (edge.tape ?? 'at-once');
}

/** The document with its edge closed another way; a rim keeps the size it has. */
export function withEdgeWay(document: Draft, way: EdgeWay, label: string): Change {
  const rim = getIn(document, 'part.edge.rim') ?? USUAL_RIM;
  const edge = way === 'as-it-comes' ? null : way === 'potted' ? { rim } : { tape: way, rim: null };
  const was = edgeWayOf(document);
  const moved =
    !isTaped(was) && isTaped(way)
      ? was === 'as-it-comes'
        ? withEdgeSplit(document)
        : document
      : isTaped(was) && !isTaped(way)
        ? withEdgeJoined(document)
        : document;
  return change(label, setIn(moved, 'part.edge', edge));
}

/** Rebated and filled in two stages. */
const isTaped = (way: EdgeWay): boolean => way === 'at-once' || way === 'after-night';

/** Work on the edge that a build has as one stage or as several. */
const EDGE = layupStageId('closeout', 'closeout');
const EDGE_FILL = stageId({ what: 'edge-fill' });

/**
 * The edge in one stage becomes two, rebated and then filled: what was done is done in both, what was to
 * follow the one follows the last, and a pin stays with the first.
 */
function withEdgeSplit(document: Draft): Draft {
  const { records, links } = document;
  return {
    ...document,
    ...(records && {
      records: records.flatMap((record) =>
        record.stage === EDGE && record.end != null
          ? [record, { ...record, stage: EDGE_FILL, start: record.end }]
          : [record],
      ),
    }),
    ...(links && {
      links: links.map((link) => (link.before === EDGE ? { ...link, before: EDGE_FILL } : link)),
    }),
  };
}

/** The way back: both stages are one, begun with the first and over with the last. */
function withEdgeJoined(document: Draft): Draft {
  const { pins, records, links } = document;
  const filled = records?.findLast(({ stage }) => stage === EDGE_FILL);
  const asOne = (stage: string): string => (stage === EDGE_FILL ? EDGE : stage);
  return {
    ...document,
    ...(pins && { pins: pins.filter(({ stage }) => stage !== EDGE_FILL) }),
    ...(records && {
      records: records
        .filter(({ stage }) => stage !== EDGE_FILL)
        .map((record) =>
          record.stage === EDGE ? { ...record, end: filled?.end ?? null } : record,
        ),
    }),
    ...(links && {
      links: links
        .map((link) => ({ ...link, before: asOne(link.before), after: asOne(link.after) }))
        .filter(({ before, after }) => before !== after),
    }),
  };
}
