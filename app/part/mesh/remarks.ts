/** What a person should know before a mesh becomes a zone. */
import type { MeshMeasure } from './measure.ts';

/** Plain sentences, gravest first; empty for a sound open surface in one piece. */
export function meshRemarks(mesh: MeshMeasure): string[] {
  const remarks: string[] = [];
  const { overfullEdges, turnedEdges, pieces, collapsedFaces, bentFaces, joinedCorners, rims } =
    mesh;
  if (overfullEdges > 0) {
    remarks.push(
      `${count(overfullEdges, 'edge')} with more than two faces: surfaces cross or lie double, so the area may be too large.`,
    );
  }
  if (turnedEdges > 0) {
    remarks.push(
      `${count(turnedEdges, 'edge')} where neighbouring faces look opposite ways: the area stands, a volume does not.`,
    );
  }
  if (mesh.closed) {
    remarks.push(
      'The surface has no free edge: it is a solid, and its area counts every side of it. Open the moulded face alone, or type the area.',
    );
  }
  if (pieces > 1) remarks.push(`${pieces} pieces that do not touch: all of them are counted.`);
  if (rims.length > 1) {
    remarks.push(
      `${rims.length} separate free edges: holes and cracks count as edge. The longest is ${share(rims[0]!.length, mesh.edge)} of it.`,
    );
  }
  if (bentFaces > 0) {
    remarks.push(
      `${count(bentFaces, 'face')} of four or more corners ${bentFaces === 1 ? 'does' : 'do'} not lie flat: the area hangs on how the program cuts them. Export triangles to be sure.`,
    );
  }
  if (joinedCorners > 0) {
    remarks.push(
      `${count(joinedCorners, 'corner')} along seams lay within rounding of another and ${joinedCorners === 1 ? 'was' : 'were'} joined to it.`,
    );
  }
  if (collapsedFaces > 0) {
    remarks.push(
      `${count(collapsedFaces, 'face')} without area ${collapsedFaces === 1 ? 'was' : 'were'} left out.`,
    );
  }
  return remarks;
}

const count = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;
const share = (part: number, whole: number): string => `${Math.round((100 * part) / whole)} %`;
