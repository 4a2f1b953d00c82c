/** One schedule of a population, kept as the order in which it is placed the other way round. */
export interface Member {
  /** Start of each activity in the reversed network's time: makespan minus end. */
  readonly key: Int32Array;
  readonly makespan: number;
  /** Makespan; ties go to the schedule whose work lies closer to where it is pushed. */
  readonly fitness: number;
  /** Work done before each moment of the key's time, all resources weighed alike. */
  readonly work: Float64Array;
  /** Fingerprint of the key: two members of one population never share it. */
  readonly hash: number;
}

/** Below one unit of time, so that it breaks ties and nothing else. */
const TIE_WEIGHT = 0.999;

/** 53 bits over a list of whole numbers. */
export function hashOf(list: Int32Array, salt: number): number {
  let a = 0x811c9dc5 ^ salt;
  let b = 0x1b873593 + salt;
  for (let i = 0; i < list.length; i++) {
    a = Math.imul(a ^ list[i]!, 0x01000193);
    b = Math.imul(b + list[i]!, 0x5bd1e995);
    b ^= b >>> 13;
  }
  return (a >>> 0) * 2097152 + ((b >>> 0) & 2097151);
}

/** The member of a placed schedule; `key` is taken over. */
export function makeMember(
  key: Int32Array,
  makespan: number,
  duration: Int32Array,
  weight: Float64Array,
): Member {
  const work = new Float64Array(makespan + 2);
  let moment = 0;
  for (let i = 0; i < key.length; i++) {
    const rate = weight[i]!;
    if (duration[i] === 0 || rate === 0) continue;
    work[key[i]! + 1]! += rate;
    work[key[i]! + duration[i]! + 1]! -= rate;
    moment += rate * duration[i]! * (key[i]! + duration[i]! / 2);
  }
  let rate = 0;
  let sum = 0;
  for (let t = 0; t < work.length; t++) {
    rate += work[t]!;
    sum += rate;
    work[t] = sum;
  }
  const centre = sum > 0 ? moment / sum / makespan : 0;
  return {
    key,
    makespan,
    work,
    fitness: makespan + (1 - centre) * TIE_WEIGHT,
    hash: hashOf(key, 7),
  };
}

/** Work of a member between two moments of its key's time. */
export const workIn = (member: Member, from: number, to: number): number =>
  member.work[Math.min(to, member.makespan)]! - member.work[Math.min(from, member.makespan)]!;
