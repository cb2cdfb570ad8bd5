/** `GET /api/invite`, for a lead's phone and for a wall: what others join with. */
export interface Invite {
  /** The server's address on the kitchen's network, as it prints it: "http://192.168.1.20:4310". */
  origin: string;
  joinCode: string;
}

/** What a phone opens to join: its page, with the code filled in. */
export const joinAddress = ({ origin, joinCode }: Invite): string =>
  `${origin}/phone/#join=${encodeURIComponent(joinCode)}`;
