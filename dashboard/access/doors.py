"""Where the pages can be reached: an address on this machine, and one on the salon's own network where asked."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Door:
    """An address that is listened on, and nothing but it: a request has to name exactly this one."""

    host: str
    port: int
    secure: bool = False

    @property
    def on_network(self) -> bool:
        return self.secure

    @property
    def netloc(self) -> str:
        return f"[{self.host}]:{self.port}" if ":" in self.host else f"{self.host}:{self.port}"

    @property
    def origin(self) -> str:
        return f"{'https' if self.secure else 'http'}://{self.netloc}"

    @property
    def socket_origin(self) -> str:
        return f"{'wss' if self.secure else 'ws'}://{self.netloc}"

    def cookie(self, purpose: str) -> str:
        """A cookie's name. Cookies know no port, so the name holds it: two salons can be open side by side."""
        return f"{'__Host-' if self.secure else ''}salon-figures-{self.port}-{purpose}"
