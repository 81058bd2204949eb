import { auditRepository } from './audit.js';
import type { Database } from './connect.js';
import { familyLinksRepository } from './people/family-links.js';
import { familyQuestionsRepository } from './people/family-questions.js';
import { settingsRepository } from './people/settings.js';
import { accessTokensRepository, sessionsRepository } from './people/sign-in-state.js';
import { signInTriesRepository } from './people/sign-in-tries.js';
import { signOffsRepository } from './people/sign-offs.js';
import { usersRepository } from './people/users.js';
import { caseloadRepository } from './records/caseload.js';
import { childrenRepository } from './records/children.js';
import { devicesRepository } from './records/devices.js';
import { eventsRepository } from './records/events.js';
import { fitLimitsRepository } from './records/fit-limits.js';
import { markersRepository } from './records/markers.js';
import { measurementsRepository } from './records/measurements.js';
import { skinChecksRepository } from './records/skin-checks.js';
import { visitsRepository } from './records/visits.js';
import { workshopJobsRepository } from './records/workshop-jobs.js';
import { forecastsRepository } from './work/forecasts.js';
import { idempotencyRepository } from './work/idempotency.js';
import { importsRepository } from './work/imports.js';
import { jobRunsRepository } from './work/job-runs.js';
import { recallRepository } from './work/recall.js';
import { sheetAnswersRepository } from './work/sheet-answers.js';

/** The repositories on a connection or on an open transaction. */
export const repositoriesOn = (db: Database, familyLinkKey: () => Promise<string>) => ({
  children: childrenRepository(db),
  visits: visitsRepository(db),
  measurements: measurementsRepository(db),
  markers: markersRepository(db),
  skinChecks: skinChecksRepository(db),
  devices: devicesRepository(db),
  events: eventsRepository(db),
  workshopJobs: workshopJobsRepository(db),
  forecasts: forecastsRepository(db),
  recall: recallRepository(db),
  familyQuestions: familyQuestionsRepository(db),
  familyLinks: familyLinksRepository(db, familyLinkKey),
  audit: auditRepository(db),
  users: usersRepository(db),
  signInTries: signInTriesRepository(db),
  settings: settingsRepository(db),
  fitLimits: fitLimitsRepository(db),
  signOffs: signOffsRepository(db),
  jobRuns: jobRunsRepository(db),
  caseload: caseloadRepository(db),
  imports: importsRepository(db),
  sheetAnswers: sheetAnswersRepository(db),
  sessions: sessionsRepository(db),
  accessTokens: accessTokensRepository(db),
  idempotency: idempotencyRepository(db),
});

export type Repositories = Readonly<ReturnType<typeof repositoriesOn>>;
