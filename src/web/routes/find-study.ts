import type { FastifyRequest } from "fastify";
import type { StudyDocument } from "../../app/types.ts";
import type { KeptStudy } from "../../store/study-store.ts";
import type { RouteContext } from "../build-app.ts";
import { HttpFault } from "../plugins/errors.ts";

/** The study named in the address. @throws HttpFault 404 where there is none. */
export async function findStudy(request: FastifyRequest, { services }: RouteContext): Promise<KeptStudy> {
  const { studyId } = request.params as { studyId: string };
  const kept = await services.store.read(studyId);
  if (kept === null) throw new HttpFault(404, "There is no study at this address. It may have been removed.");
  return kept;
}

/** The study with all that was found for it. @throws HttpFault 409 where the study cannot be worked out yet. */
export async function documentOf(
  kept: KeptStudy,
  { services, resolved }: RouteContext,
): Promise<StudyDocument> {
  const outcome = resolved.of(kept);
  if (!outcome.ok) {
    throw new HttpFault(
      409,
      `The study is not complete yet: ${outcome.problems[0]?.message ?? "see its page"}`,
    );
  }
  const answer = await services.store.readAnswer(kept.id);
  const curve = await services.store.readCurve(kept.id);
  return {
    study: kept.study,
    resolved: outcome.value,
    sized: answer?.sized ?? null,
    stale: answer !== null && answer.fingerprint !== kept.fingerprint,
    curve: curve?.fingerprint === kept.curveFingerprint ? curve.curve : null,
  };
}
