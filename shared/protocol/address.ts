/** `GET /api/address`: where the kitchen's screens open this server, such as "http://192.168.1.20:4310"; the one to show first. */
export interface AddressAnswer {
  origins: readonly string[];
}
