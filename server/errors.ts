import type { Problem } from "../src/logbook/problems.ts";

/** Every code that an error answer can bear, with its HTTP status. */
export const errorStatuses = {
  invalid: 400,
  "not-json": 400,
  "bad-request": 400,
  "not-paired": 401,
  "code-refused": 403,
  "view-only": 403,
  "only-at-server": 403,
  "host-refused": 403,
  "origin-refused": 403,
  "no-such-locomotive": 404,
  "no-such-steaming": 404,
  "steaming-removed": 404,
  "no-such-entry": 404,
  "no-such-plan": 404,
  "no-such-service": 404,
  "no-such-device": 404,
  "no-such-address": 404,
  "no-network": 409,
  "locomotive-differs": 409,
  "steaming-differs": 409,
  "entry-differs": 409,
  "trace-differs": 409,
  "service-differs": 409,
  "logbook-differs": 409,
  "fitting-in-use": 409,
  "steaming-full": 409,
  "steaming-not-empty": 409,
  "entry-deleted": 410,
  "too-large": 413,
  "wrong-type": 415,
  "too-many-requests": 429,
  internal: 500,
  "live-full": 503,
} as const;
export type ErrorCode = keyof typeof errorStatuses;

export interface ErrorBody {
  code: ErrorCode;
  message: string;
  path?: string;
  problems?: Problem[];
}

/** A refusal that the caller is told of. */
export class ApiError extends Error {
  readonly code: ErrorCode;
  readonly statusCode: number;
  readonly path: string | undefined;
  readonly problems: readonly Problem[];

  constructor(
    code: ErrorCode,
    message: string,
    about: { path?: string; problems?: readonly Problem[] } = {},
  ) {
    super(message);
    this.code = code;
    this.statusCode = errorStatuses[code];
    this.path = about.path;
    this.problems = about.problems ?? [];
  }

  body(): ErrorBody {
    return {
      code: this.code,
      message: this.message,
      ...(this.path === undefined ? {} : { path: this.path }),
      ...(this.problems.length === 0 ? {} : { problems: [...this.problems] }),
    };
  }
}

/** A refusal for one problem or several: the first one's path stands at the top. */
export function invalid(problems: readonly Problem[]): ApiError {
  const [first] = problems;
  if (first === undefined) return new ApiError("invalid", "not valid");
  const more = problems.length > 1 ? ` (and ${problems.length - 1} more)` : "";
  const message = `${first.path}: came ${first.came}; wanted ${first.wanted}${more}`;
  return new ApiError("invalid", message, { path: first.path, problems });
}

/** Codes of the HTTP library's own refusals, in ours. */
const libraryCodes: Record<string, readonly [ErrorCode, string]> = {
  FST_ERR_CTP_INVALID_JSON_BODY: ["not-json", "the body is not JSON"],
  FST_ERR_CTP_EMPTY_JSON_BODY: ["not-json", "the body is empty; wanted JSON"],
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: ["bad-request", "the body is not as long as its Content-Length says"],
  FST_ERR_CTP_INVALID_MEDIA_TYPE: [
    "wrong-type",
    "wanted a body of application/json (traces: application/senml+json)",
  ],
  FST_ERR_CTP_INVALID_TYPE: ["wrong-type", "wanted a body of application/json"],
  FST_ERR_CTP_BODY_TOO_LARGE: ["too-large", "the body is larger than this address takes"],
  FST_ERR_BAD_URL: ["bad-request", "the address cannot be read"],
  FST_ERR_MAX_PARAM_LENGTH: ["bad-request", "a part of the address is too long"],
};

/** Any failure as a refusal; what is not foreseen is `internal` and says nothing of the inside. */
export function asApiError(error: unknown): ApiError {
  if (error instanceof ApiError) return error;
  const { code, statusCode } = (error ?? {}) as { code?: unknown; statusCode?: unknown };
  const known = typeof code === "string" ? libraryCodes[code] : undefined;
  if (known !== undefined) return new ApiError(...known);
  if (statusCode === 429) return new ApiError("too-many-requests", "too many requests: wait a minute");
  if (statusCode === 400) return new ApiError("bad-request", "the request cannot be read");
  return new ApiError("internal", "something went wrong in the server; nothing was changed by this request");
}
