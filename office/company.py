"""The company profile, of which there is one."""

from office.models import Company


def get_company() -> Company:
    """The profile, made with a placeholder name at first use."""
    company = Company.objects.order_by("pk").first()
    return company or Company.objects.create(name="Your company")
