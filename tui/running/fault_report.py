"""A fault of the program itself: its traceback goes into a file, and only a line about it to the smith."""

from __future__ import annotations


def report_of(error: BaseException) -> str:
    """Keep the traceback of a fault of the program in a file.

    Returns:
        a line for the smith: what happened, and which file to report it with
    """
    import traceback
    from tempfile import NamedTemporaryFile

    what = f"heatbook failed ({type(error).__name__}: {error}). This is a fault of the program"
    try:
        with NamedTemporaryFile("w", prefix="heatbook-fault-", suffix=".txt", delete=False, encoding="utf-8") as file:
            file.writelines(traceback.format_exception(error))
    except OSError:
        return f"{what}: please report it."
    return f"{what}: please report it, with what stands in {file.name}"
