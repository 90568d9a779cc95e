"""Signing in: nobody is answered who does not belong to the firm, once its first person was entered.

A person proves himself by a passkey, or by a name with a password and, where he wants that, a code of his phone. Wrong
tries make the next one wait, the same whether the name exists or not. Of passwords slow digests are kept, and
digests of whatever opens once or for a time.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.web.sign_in._gate import Gate
    from pavewright.web.sign_in._guard import Guard
    from pavewright.web.sign_in._keys import Passwords
    from pavewright.web.sign_in._password_routes import PASSWORD_ROUTES
    from pavewright.web.sign_in._routes import ROUTES
    from pavewright.web.sign_in._you_routes import ROUTES as YOU_ROUTES
else:
    __getattr__ = face(__name__)

__all__ = [
    "PASSWORD_ROUTES",
    "ROUTES",
    "YOU_ROUTES",
    "Gate",
    "Guard",
    "Passwords",
]
