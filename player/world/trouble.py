"""What a person must be told when this machine or a file on it will not do."""

from __future__ import annotations

import errno

_SENTENCES = {
    errno.ENOENT: "{place} is not there.",
    errno.EEXIST: "{place} is there already.",
    errno.EACCES: "{place} may not be read or written by you.",
    errno.EPERM: "{place} may not be read or written by you.",
    errno.EROFS: "{place} is on a disk that can only be read.",
    errno.ENOSPC: "The disk is full: {place} could not be written, and what was there before is kept.",
    errno.EDQUOT: "Your share of the disk is used up: {place} could not be written.",
    errno.EISDIR: "{place} is a folder, and a file was meant.",
    errno.ENOTDIR: "{place} would lie in something that is not a folder.",
    errno.ENAMETOOLONG: "{place} is too long a name.",
    errno.EMFILE: "Too many files are open at once.",
    errno.ELOOP: "{place} is a link that leads round in a circle.",
}


class Trouble(Exception):
    """Something a person can mend. The message is one or two plain sentences that say what and how."""


def in_words(error: OSError) -> str:
    """One or two plain sentences for an error of the system, with the file it is about."""
    # A rename that fails names the file that was to be moved first, and the one that was meant second.
    if error.errno in (errno.ENOSPC, errno.EDQUOT) and not (error.filename2 or error.filename):
        return "The disk is full: not everything could be written."
    place = str(error.filename2 or error.filename or "A file")
    sentence = _SENTENCES.get(error.errno or 0)
    if sentence is not None:
        return sentence.format(place=place)
    return f"{place} could not be used: {error.strerror or error}."
