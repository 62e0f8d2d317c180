"""Plan files."""

from plans.reader.plan_files import ShelfPlan, find_plan, read_plan_file, shelf_plans
from plans.reader.plan_text import read_plan

__all__ = ["ShelfPlan", "find_plan", "read_plan", "read_plan_file", "shelf_plans"]
