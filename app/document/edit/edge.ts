/** How the edge of the part is closed, as one choice. */
import { change, type Change } from './change.ts';
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
  return change(label, setIn(document, 'part.edge', edge));
}
