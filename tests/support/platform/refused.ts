/** An answer of the platform that is no success: its status, and the platform's own code for what went wrong. */
export class Refused extends Error {
  readonly status: number;
  readonly code: number;

  constructor(status: number, code: number, message: string) {
    super(message);
    this.status = status;
    this.code = code;
  }
}

export const unknownChannel = (): Refused => new Refused(404, 10003, 'Unknown Channel');
export const unknownServer = (): Refused => new Refused(404, 10004, 'Unknown Guild');
export const unknownMember = (): Refused => new Refused(404, 10007, 'Unknown Member');
export const unknownMessage = (): Refused => new Refused(404, 10008, 'Unknown Message');
export const unknownUser = (): Refused => new Refused(404, 10013, 'Unknown User');
export const unknownWebhook = (): Refused => new Refused(404, 10015, 'Unknown Webhook');
export const unknownInteraction = (): Refused => new Refused(404, 10062, 'Unknown interaction');
export const alreadyAcknowledged = (): Refused => new Refused(400, 40060, 'Interaction has already been acknowledged.');
export const missingAccess = (): Refused => new Refused(403, 50001, 'Missing Access');
export const missingPermissions = (): Refused => new Refused(403, 50013, 'Missing Permissions');
export const cannotMessage = (): Refused => new Refused(403, 50007, 'Cannot send messages to this user');
export const otherAuthor = (): Refused => new Refused(403, 50005, 'Cannot edit a message authored by another user');
export const tokenExpired = (): Refused => new Refused(401, 50027, 'Invalid Webhook Token');
export const onlyPosts = (): Refused => new Refused(400, 50008, 'Cannot send messages in a non-text channel');
export const tooLarge = (): Refused => new Refused(413, 40005, 'Request entity too large');
export const invalidBody = (): Refused => new Refused(400, 50035, 'Invalid Form Body');
