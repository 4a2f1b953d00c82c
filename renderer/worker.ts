/** The Web Worker: passes one request in and its answer out. */
import { answerPlanRequest, type PlanRequest } from '../app/worker.ts';

self.onmessage = ({ data }: MessageEvent<PlanRequest>) => {
  self.postMessage(answerPlanRequest(data));
};
